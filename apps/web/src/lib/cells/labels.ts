import type { Cell } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

const kindWords = {
  booth: m.cells_kind_booth,
  robot: m.cells_kind_robot,
} as const satisfies Record<Cell['kind'], () => string>;

type DayChangeKind = Cell['calendar']['dayChanges'][number]['kind'];

const dayChangeWords = {
  closed: m.cells_day_closed,
  overtime: m.cells_day_overtime,
  down: m.cells_day_down,
} as const satisfies Record<DayChangeKind, () => string>;

const weekdayWords = [
  m.cells_monday,
  m.cells_tuesday,
  m.cells_wednesday,
  m.cells_thursday,
  m.cells_friday,
  m.cells_saturday,
  m.cells_sunday,
] as const;

export function kindWord(kind: Cell['kind']): string {
  return kindWords[kind]();
}

export function dayChangeWord(kind: DayChangeKind): string {
  return dayChangeWords[kind]();
}

/** ISO 8601 weekdays, Monday is 1. */
export const weekdays = weekdayWords.map((word, at) => ({ value: String(at + 1), label: word }));

const fieldWords: Readonly<Record<string, () => string>> = {
  code: m.cells_code,
  name: m.cells_name,
  processes: m.cells_processes,
  stations: m.cells_stations,
  sourceRatingA: m.cells_source_rating,
  sourceRatingPct: m.cells_source_pct,
  torchRatingA: m.cells_torch_rating,
  torchRatingPct: m.cells_torch_pct,
  torchMaxA: m.cells_torch_max,
  torchRatingGas: m.cells_torch_gas,
  reachMm: m.cells_reach,
  loadKg: m.cells_load,
  planningFactor: m.cells_planning_factor,
  gasLossFactor: m.cells_gas_loss,
  extraction: m.cells_extraction,
};

const partWords: Readonly<Record<string, () => string>> = {
  weekday: m.cells_weekday,
  startTime: m.cells_from,
  endTime: m.cells_to,
  breakMin: m.cells_break,
  day: m.cells_day,
  minutes: m.cells_minutes,
  reason: m.cells_reason,
};

/** The label of a refused field; rows of a list are counted from 1. */
export function fieldLabel(field: string): string {
  const [name = '', at, part] = field.replace(/^body\./, '').split('.');
  const row = String(Number(at) + 1);
  const partWord = partWords[part ?? '']?.() ?? part ?? '';
  if (name === 'shifts') return m.cells_shift_row({ row, part: partWord }).trim();
  if (name === 'dayChanges') return m.cells_day_row({ row, part: partWord }).trim();
  return fieldWords[name]?.() ?? name;
}
