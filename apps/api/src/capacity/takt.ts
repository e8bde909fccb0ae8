import { taktShortfall, taktTime } from '@tackboard/calc';
import type { CellTakt } from '@tackboard/contract';
import type { DueJob } from './store.js';

const secondsPerMin = 60;

interface CellFacts {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  /** Calendar minutes of the week times the planning factor. */
  readonly openMin: number;
}

/** The jobs whose part numbers begin with what was typed, whatever its case. */
export function familyOf(jobs: readonly DueJob[], beginning: string): DueJob[] {
  const start = beginning.toLowerCase();
  return jobs.filter(({ partNumber }) => partNumber.toLowerCase().startsWith(start));
}

/** Takt beside planned cycle at each cell that makes the family. */
export function taktOfCells(jobs: readonly DueJob[], cells: readonly CellFacts[]): CellTakt[] {
  return cells.flatMap(({ id, code, name, openMin }): CellTakt[] => {
    const steps = jobs.flatMap((job) =>
      job.steps.flatMap((step) =>
        step.cellId === id ? [{ ...step, quantity: job.quantity }] : [],
      ),
    );
    if (steps.length === 0) return [];
    const demand = steps.reduce((sum, { quantity }) => sum + quantity, 0);
    const workMin = steps.reduce(
      (sum, { plannedMin, setUpMin, firstPieceMin }) =>
        sum + Math.max(0, plannedMin - setUpMin - firstPieceMin),
      0,
    );
    const cycleS = workMin > 0 ? (workMin * secondsPerMin) / demand : null;
    return [
      {
        ...{ cellId: id, cellCode: code, cellName: name, demand, openMin, cycleS },
        ...judged({ availableMin: openMin, demand, cycleS }),
      },
    ];
  });
}

function judged({
  cycleS,
  ...hours
}: {
  availableMin: number;
  demand: number;
  cycleS: number | null;
}): Pick<CellTakt, 'taktS' | 'shortMin' | 'state'> {
  const takt = taktTime(hours);
  if (!takt.ok) return { taktS: null, shortMin: null, state: 'unknown' };
  const short = cycleS === null ? null : taktShortfall({ ...hours, cycleS });
  if (!short?.ok) return { taktS: takt.value, shortMin: null, state: 'unknown' };
  const state = short.value > 0 ? 'beyond' : 'within';
  return { taktS: takt.value, shortMin: short.value, state };
}
