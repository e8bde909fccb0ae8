import type { Lapse } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

export function horizonWord(within: Lapse['within']): string {
  const words = {
    lapsed: m.lapses_within_lapsed,
    '30': m.lapses_within_30,
    '60': m.lapses_within_60,
    '90': m.lapses_within_90,
  } as const satisfies Record<Lapse['within'], () => string>;
  return words[within]();
}

export function lapseKindWord(kind: Lapse['kind']): string {
  const words = {
    certificate: m.lapses_kind_certificate,
    confirmation: m.lapses_kind_confirmation,
    instrument: m.lapses_kind_instrument,
  } as const satisfies Record<Lapse['kind'], () => string>;
  return words[kind]();
}
