import type { Cell } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

const mechanisationWords = {
  manual: m.cells_mech_manual,
  partlyMechanised: m.cells_mech_partly,
  fullyMechanised: m.cells_mech_fully,
  automatic: m.cells_mech_automatic,
} as const satisfies Record<Cell['mechanisation'], () => string>;

export function mechanisationWord(mechanisation: Cell['mechanisation']): string {
  return mechanisationWords[mechanisation]();
}
