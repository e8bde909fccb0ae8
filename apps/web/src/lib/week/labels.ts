import type { CellWeek } from '@tackboard/contract';
import { lostCauses } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';
import type { StackPart } from './stack.js';

type Cause = keyof CellWeek['lostH'];

const causeWords = {
  handling: m.week_lost_handling,
  setUp: m.week_lost_set_up,
  waitingParts: m.week_lost_waiting_parts,
  waitingProgram: m.week_lost_waiting_program,
  waitingInspection: m.week_lost_waiting_inspection,
  waitingPerson: m.week_lost_waiting_person,
  fault: m.week_lost_fault,
  rework: m.week_lost_rework,
  noWork: m.week_lost_no_work,
} as const satisfies Record<Cause, () => string>;

export function causeWord(cause: Cause): string {
  return causeWords[cause]();
}

/** Arc time first, then the lost hours in the order of the contract. */
export function partsOf(cell: CellWeek): StackPart[] {
  return [
    { key: 'arc', hours: cell.arcH },
    ...lostCauses.map((cause) => ({ key: cause, hours: cell.lostH[cause] })),
  ];
}
