import type { Bound } from '../quantities.js';
import { refused, type Refused } from '../result.js';

interface ProcessRow {
  /** Lowest and highest share of the wire that published tables say stays in the weld. */
  efficiency: { min: number; max: number };
  /** Lowest and highest rate in kg/h that Job Knowledge 97 gives; null where it gives none. */
  depositionKgH: { min: number; max: number } | null;
  /** Fed from a spool, so that a wire speed says how much. */
  wire: boolean;
}

const arc = { min: 0.6, max: 12 };
const cored = { min: 1, max: 15 };

/**
 * By process number of ISO 4063. Metal-cored wire (138): general tables say 0.94 to 0.98, one wire's data sheet
 * 0.88 to 0.92, so the range holds both; the data sheet of the wire in use is the better figure. Gas-shielded
 * flux-cored (136): 0.82 to 0.88, basic wires to 0.92. Stick electrodes (111) are before stub loss.
 */
const processes: Readonly<Record<string, ProcessRow>> = {
  '111': {
    efficiency: { min: 0.6, max: 0.65 },
    depositionKgH: { min: 0.4, max: 5.5 },
    wire: false,
  },
  '114': { efficiency: { min: 0.75, max: 0.85 }, depositionKgH: cored, wire: true },
  '121': { efficiency: { min: 0.99, max: 0.99 }, depositionKgH: { min: 3, max: 16 }, wire: true },
  '131': { efficiency: { min: 0.92, max: 0.99 }, depositionKgH: arc, wire: true },
  '135': { efficiency: { min: 0.92, max: 0.99 }, depositionKgH: arc, wire: true },
  '136': { efficiency: { min: 0.82, max: 0.92 }, depositionKgH: cored, wire: true },
  '138': { efficiency: { min: 0.88, max: 0.98 }, depositionKgH: arc, wire: true },
  '141': { efficiency: { min: 0.94, max: 0.97 }, depositionKgH: null, wire: true },
};

/** The row of a process; null where the tables have none. */
export function processRow(process: string): ProcessRow | null {
  const key = String(process).trim();
  return Object.hasOwn(processes, key) ? (processes[key] ?? null) : null;
}

/** A wire process with its row, or a refusal that lists those that have one. */
export function wireProcess(process: string): { ok: true; row: ProcessRow } | Refused {
  const row = processRow(process);
  if (row?.wire) return { ok: true, row };
  const known = Object.keys(processes).filter((key) => processes[key]?.wire);
  const allowed = `a wire process with a published range: ${known.join(', ')}`;
  return refused({ argument: 'process', given: process, allowed });
}

/** Whether a figure lies inside the lowest and highest of a table. */
export function within(value: number, range: Pick<Bound, 'min' | 'max'>): boolean {
  return value >= range.min && value <= range.max;
}
