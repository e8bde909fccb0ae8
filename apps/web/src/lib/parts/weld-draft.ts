import type { BodyOf, parts, Preparation, Weld } from '@tackboard/contract';
import { readNumber, type NumberReading } from '../ui/number-text.js';

export type WeldBody = BodyOf<typeof parts.setWelds>['welds'][number];
/** The columns of the table; the preparation has a form of its own beside the drawing. */
export type WeldKey = Exclude<keyof WeldBody, 'preparation'>;

/**
 * One row of the table, every cell as typed; `row` only tells rows apart on the screen. A stored length may have
 * no short text in the unit of the table: `kept` holds it, so that what nobody typed over is sent as it was.
 */
export type WeldDraft = Record<WeldKey, string> & {
  readonly row: number;
  readonly kept: Kept;
  preparation: Preparation | null;
};
type Kept = Partial<Record<WeldKey, { readonly text: string; readonly value: number }>>;

/** How the table shows and reads a length stored in mm. */
export interface LengthUnit {
  readonly read: (typed: string) => NumberReading;
  readonly text: (valueMm: number) => string;
}

export interface WeldColumn {
  readonly key: WeldKey;
  /** An `openNumber` may stay empty; `length` is one of the two as well. */
  readonly kind: 'number' | 'openNumber' | 'text' | 'choice';
  readonly length?: true;
  readonly widthRem: number;
}

/** The columns in the order in which a drawing is read. */
export const weldColumns: readonly WeldColumn[] = [
  { key: 'number', kind: 'number', widthRem: 3 },
  { key: 'jointType', kind: 'choice', widthRem: 5.4 },
  { key: 'throatMm', kind: 'openNumber', length: true, widthRem: 3.4 },
  { key: 'legMm', kind: 'openNumber', length: true, widthRem: 3.4 },
  { key: 'grooveDepthMm', kind: 'openNumber', length: true, widthRem: 3.6 },
  { key: 'holeWidthMm', kind: 'openNumber', length: true, widthRem: 3.4 },
  { key: 'lengthMm', kind: 'number', length: true, widthRem: 4.2 },
  { key: 'count', kind: 'number', widthRem: 3.2 },
  { key: 'thicknessAMm', kind: 'number', length: true, widthRem: 3.4 },
  { key: 'thicknessBMm', kind: 'number', length: true, widthRem: 3.4 },
  { key: 'materialA', kind: 'text', widthRem: 5.2 },
  { key: 'materialB', kind: 'text', widthRem: 5.2 },
  { key: 'materialGroupA', kind: 'text', widthRem: 3.4 },
  { key: 'materialGroupB', kind: 'text', widthRem: 3.4 },
  { key: 'position', kind: 'choice', widthRem: 4.2 },
  { key: 'process', kind: 'text', widthRem: 3.6 },
  { key: 'stepNumber', kind: 'number', widthRem: 3.2 },
  { key: 'qualityLevel', kind: 'choice', widthRem: 3.6 },
  { key: 'sizeUnderMm', kind: 'openNumber', widthRem: 3.4 },
  { key: 'sizeOverMm', kind: 'openNumber', widthRem: 3.4 },
  { key: 'notes', kind: 'text', widthRem: 7 },
];

const firstWeld: Omit<WeldDraft, 'row'> = {
  kept: {},
  preparation: null,
  number: '1',
  jointType: 'fillet',
  throatMm: '',
  legMm: '',
  grooveDepthMm: '',
  holeWidthMm: '',
  lengthMm: '',
  count: '1',
  thicknessAMm: '',
  thicknessBMm: '',
  materialA: '',
  materialB: '',
  materialGroupA: '',
  materialGroupB: '',
  position: 'PB',
  process: '135',
  stepNumber: '1',
  qualityLevel: 'C',
  sizeUnderMm: '',
  sizeOverMm: '',
  notes: '',
};

export function draftOfWeld(weld: Weld, row: number, unit: LengthUnit): WeldDraft {
  const kept: Kept = {};
  const cells = weldColumns.map(({ key, length }) => {
    const value = weld[key];
    if (value === null) return [key, ''];
    if (length !== true || typeof value !== 'number') return [key, String(value)];
    const text = unit.text(value);
    kept[key] = { text, value };
    return [key, text];
  });
  const { preparation } = weld;
  return { ...(Object.fromEntries(cells) as Record<WeldKey, string>), row, kept, preparation };
}

/** A new row repeats the last one under the next number, because the welds of a part are mostly alike. */
export function nextWeld(rows: readonly WeldDraft[], stepNumber: number | undefined): WeldDraft {
  const row = Math.max(-1, ...rows.map((one) => one.row)) + 1;
  const last = rows.at(-1);
  if (last === undefined)
    return {
      ...firstWeld,
      ...(stepNumber === undefined ? {} : { stepNumber: `${stepNumber}` }),
      row,
    };
  const highest = Math.max(...rows.map(({ number }) => Number(number) || 0));
  return { ...last, number: String(highest + 1), notes: '', row };
}

type Problem = 'missing' | 'notANumber';
type Problems = Partial<Record<WeldKey, Problem>>;
export type WeldReading =
  | { readonly ok: true; readonly weld: WeldBody }
  | { readonly ok: false; readonly problems: Problems };

/** Reads a row. Comma and point are both the decimal mark; whether the values may be is the server's to say. */
export function readWeld(draft: WeldDraft, unit: LengthUnit): WeldReading {
  const problems: Problems = {};
  const values = weldColumns.map(({ key, kind, length }) => {
    const typed = draft[key];
    if (kind !== 'number' && kind !== 'openNumber') return [key, typed.trim()];
    const kept = draft.kept[key];
    if (kept?.text === typed) return [key, kept.value];
    const reading = length === true ? unit.read(typed) : readNumber(typed);
    if (reading.kind === 'number') return [key, reading.value];
    if (reading.kind === 'refused') problems[key] = 'notANumber';
    else if (kind === 'number') problems[key] = 'missing';
    return [key, null];
  });
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  const weld = Object.fromEntries(values) as WeldBody;
  // A row that became another joint keeps the preparation of a butt weld and the hole of a plug to itself.
  const preparation = draft.jointType === 'butt' ? draft.preparation : null;
  const holeWidthMm = draft.jointType === 'plug' ? weld.holeWidthMm : null;
  return { ok: true, weld: { ...weld, preparation, holeWidthMm } };
}
