import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyLanes, planOf } from '../testing/plans.js';
import { newWalk, walkLanes } from './evaluate.js';
import { applyTransfer, bestTrade, bestTransfer } from './improve/between-cells.js';
import { applyBlockMove, bestBlockMove } from './improve/block-move.js';
import { applySwap, bestSwap } from './improve/swap.js';
import { crossOver } from './improve/cross-over.js';
import { emptyLane, laneCost, lanesCost, loadLanes, refresh, type Lane } from './lanes.js';
import { randomFrom } from './random.js';
import { isEligible, numbered, tablesOf, type NumberedLanes, type Tables } from './tables.js';

const shape = fc.record({
  seed: fc.integer({ min: 1, max: 1e9 }),
  steps: fc.integer({ min: 2, max: 14 }),
  releases: fc.boolean(),
  setup: fc.boolean(),
});

function fieldOf(problemShape: { seed: number; steps: number; cells: number; choosy?: boolean }) {
  const problem = planOf(problemShape);
  const tables = tablesOf(problem);
  const start = numbered(tables, anyLanes(problem, problemShape.seed + 1));
  const lanes = start.map((_, cell) => emptyLane(cell, tables));
  loadLanes(lanes, tables, Int32Array.from(start.flatMap((lane) => [...lane, 0])));
  return { tables, lanes, start };
}

function fullCost(tables: Tables, lanes: readonly Lane[]): number {
  const order: NumberedLanes = lanes.map((lane) => [...lane.step.slice(1, lane.length + 1)]);
  return walkLanes(tables, order, newWalk(tables));
}

function exchanged(lane: readonly number[], from: number, middle: number, to: number): number[] {
  return [
    ...lane.slice(0, from),
    ...lane.slice(middle + 1, to + 1),
    ...lane.slice(from, middle + 1),
    ...lane.slice(to + 1),
  ];
}

// Kind of every expectation: independent (the whole order walked again, every change of the kind tried).
describe('independent: the quick judgement of a change equals the walk of the whole order', () => {
  it('finds the cheapest exchange of two blocks', () => {
    fc.assert(
      fc.property(shape, fc.nat(), (base, pick) => {
        const { tables, lanes, start } = fieldOf({ ...base, cells: 1 });
        const lane = lanes[0]!;
        const from = 1 + (pick % (lane.length - 1));
        let least = Infinity;
        for (let middle = from; middle < lane.length; middle += 1) {
          for (let to = middle + 1; to <= lane.length; to += 1) {
            const order = exchanged(start[0]!, from - 1, middle - 1, to - 1);
            least = Math.min(least, walkLanes(tables, [order], newWalk(tables)));
          }
        }
        const found = { cost: Infinity, from: 0, middle: 0, to: 0 };
        bestBlockMove(lane, tables, from, 20, found);
        expect(found.cost).toBe(least);
        applyBlockMove(lane, found.from, found.middle, found.to);
        refresh(lane, tables, found.from);
        expect(laneCost(lane)).toBe(least);
        expect(fullCost(tables, lanes)).toBe(least);
      }),
      { numRuns: 120 },
    );
  });

  it('finds the cheapest exchange of two steps', () => {
    fc.assert(
      fc.property(shape, fc.nat(), (base, pick) => {
        const { tables, lanes, start } = fieldOf({ ...base, steps: base.steps + 1, cells: 1 });
        const lane = lanes[0]!;
        const left = 1 + (pick % (lane.length - 2));
        let least = Infinity;
        for (let right = left + 2; right <= lane.length; right += 1) {
          const order = start[0]!.slice();
          [order[left - 1], order[right - 1]] = [order[right - 1]!, order[left - 1]!];
          least = Math.min(least, walkLanes(tables, [order], newWalk(tables)));
        }
        const found = { cost: Infinity, left: 0, right: 0 };
        bestSwap(lane, tables, left, found);
        expect(found.cost).toBe(least);
        applySwap(lane, found.left, found.right);
        refresh(lane, tables, found.left);
        expect(fullCost(tables, lanes)).toBe(least);
      }),
      { numRuns: 120 },
    );
  });

  it('finds the cheapest change to another cell', () => {
    fc.assert(
      fc.property(shape, fc.nat(), fc.integer({ min: 0, max: 2 }), (base, pick, count) => {
        const { tables, lanes, start } = fieldOf({ ...base, cells: 3, choosy: true });
        const at = lanes.findIndex((lane) => lane.length > 0);
        const from = 1 + (pick % lanes[at]!.length);
        if (from + Math.max(count, 1) - 1 > lanes[at]!.length) return;
        const before = lanesCost(lanes);
        let least = Infinity;
        lanes.forEach((_, other) => {
          if (other === at) return;
          const block = start[at]!.slice(from - 1, from - 1 + Math.max(count, 1));
          if (!block.every((step) => isEligible(tables, other, step))) return;
          for (let place = 0; place <= start[other]!.length; place += 1) {
            const order = start.map((lane) => lane.slice());
            if (count === 0) {
              const partner = order[other]![place];
              if (partner === undefined || !isEligible(tables, at, partner)) continue;
              order[other]![place] = block[0]!;
              order[at]![from - 1] = partner;
            } else {
              order[at]!.splice(from - 1, count);
              order[other]!.splice(place, 0, ...block);
            }
            least = Math.min(least, walkLanes(tables, order, newWalk(tables)));
          }
        });
        const found = { change: Infinity, lane: 0, from: 0, other: -1, place: 0, count: 0 };
        if (count === 0) bestTrade(lanes, tables, { lane: at, from }, found);
        else bestTransfer(lanes, tables, { lane: at, from, count }, found);
        expect(before + found.change).toBe(least);
        if (found.other < 0) return;
        applyTransfer(lanes, found);
        refresh(lanes[at]!, tables, from);
        refresh(lanes[found.other]!, tables, found.place);
        expect(lanesCost(lanes)).toBe(least);
        expect(fullCost(tables, lanes)).toBe(least);
      }),
      { numRuns: 150 },
    );
  });
});

describe('a cross of two orders', () => {
  it('holds every step once', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.integer({ min: 1, max: 4 }),
        (seed, cells) => {
          const problem = planOf({ seed, steps: 12, cells });
          const tables = tablesOf(problem);
          const flat = (lanes: NumberedLanes) =>
            Int32Array.from(lanes.flatMap((lane) => [...lane, 0]));
          const one = flat(numbered(tables, anyLanes(problem, seed)));
          const two = flat(numbered(tables, anyLanes(problem, seed + 1)));
          const scratch = { kept: new Uint8Array(13), child: new Int32Array(one.length) };
          crossOver(one, two, randomFrom(seed), scratch);
          expect([...scratch.child].sort()).toEqual([...one].sort());
        },
      ),
    );
  });
});
