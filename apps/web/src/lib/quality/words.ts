import type { InspectionPoint, Ncr } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

type Disposition = Ncr['decisions'][number]['disposition'];

const dispositionWords: Record<Disposition, () => string> = {
  rework: m.ncr_rework,
  useAsIs: m.ncr_use_as_is,
  scrap: m.ncr_scrap,
  concession: m.ncr_concession,
};

export function dispositionWord(disposition: Disposition): string {
  return dispositionWords[disposition]();
}

const stateMarks = {
  open: { tone: 'stop', word: m.ncr_state_open },
  decided: { tone: 'tell', word: m.ncr_state_decided },
  closed: { tone: 'good', word: m.ncr_state_closed },
} as const satisfies Record<Ncr['state'], unknown>;

export function ncrMark(state: Ncr['state']) {
  const { tone, word } = stateMarks[state];
  return { tone, word: word() };
}

export function pointWord(kind: InspectionPoint['kind']): string {
  return kind === 'hold' ? m.point_hold() : m.point_witness();
}

const fieldWords: Readonly<Record<string, () => string>> = {
  quantity: m.ncr_quantity,
  wpsId: m.ncr_wps,
  concession: m.ncr_concession_number,
  reason: m.ncr_reason,
  note: m.ncr_note,
  accepted: m.ncr_accepted,
  lotId: m.contain_lot,
  personId: m.contain_person,
  programId: m.contain_program,
  cellId: m.contain_cell,
  from: m.contain_from,
  to: m.contain_to,
};

export function fieldLabel(field: string): string {
  const name = field.replace(/^(body|query)\./, '');
  return fieldWords[name]?.() ?? name;
}
