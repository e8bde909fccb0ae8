import type { LaneOrder } from '@tackboard/calc';
import type { PlannedChangeOver } from '@tackboard/contract';
import { knownChangeOver } from './change-over.js';
import type { Plan } from './plan.js';
import { needAt } from './set-up-table.js';
import type { Names } from './words.js';

/** The change-overs of an order, alike ones counted once, the longest first; those of unknown set-ups are left out. */
export function changeOversOf(
  { problem, setUps, learnt }: Plan,
  lanes: LaneOrder,
  { cellCodes }: Pick<Names, 'cellCodes'>,
): PlannedChangeOver[] {
  const numbers = new Map(problem.steps.map(({ id }, at) => [id, at]));
  const found = new Map<string, PlannedChangeOver>();
  lanes.forEach((lane, cell) => {
    const cellCode = cellCodes.get(problem.cells[cell]?.id ?? '') ?? '';
    const needs = lane.flatMap((id) => {
      const setUp = setUps[numbers.get(id) ?? -1];
      return setUp === undefined ? [] : [needAt(setUp, cell)];
    });
    needs.slice(1).forEach((to, at) => {
      const from = needs[at];
      const known = from && knownChangeOver(from, to, learnt[cell] ?? []);
      if (!known || known.changed.length === 0) return;
      const { changed, minutes, basis } = known;
      const key = [cellCode, basis, minutes, ...changed].join();
      found.set(key, {
        ...{ cellCode, changed: [...changed], minutes, basis },
        runs: known.learnt?.runs ?? null,
        lowMin: known.learnt?.lowMin ?? null,
        highMin: known.learnt?.highMin ?? null,
        times: (found.get(key)?.times ?? 0) + 1,
      });
    });
  });
  return [...found.values()].toSorted(
    (a, b) => a.cellCode.localeCompare(b.cellCode) || b.minutes - a.minutes,
  );
}
