import { expect, it } from 'vitest';
import { anyLanes, planOf } from '../../testing/plans.js';
import { emptyLane, lanesCost, loadLanes, markChanged, saveLanes } from '../lanes.js';
import { randomFrom } from '../random.js';
import { numbered, tablesOf, type NumberedLanes } from '../tables.js';
import { crossOver } from './cross-over.js';
import { newField, settle, type Field } from './local-search.js';
import { shake } from './shake.js';

const flat = (lanes: NumberedLanes) => Int32Array.from(lanes.flatMap((lane) => [...lane, 0]));

function fieldOf(seed: number, cells: number) {
  const shape = { seed, steps: 15, cells, setup: seed % 2 === 0, releases: seed % 3 === 0 };
  const problem = planOf({ ...shape, choosy: seed % 5 === 0 });
  const tables = tablesOf(problem);
  const [one, two] = [1, 2].map((more) => flat(numbered(tables, anyLanes(problem, seed + more))));
  if (one === undefined || two === undefined) throw new Error('no lanes');
  const lanes = Array.from({ length: cells }, (_, cell) => emptyLane(cell, tables));
  loadLanes(lanes, tables, one);
  return { field: newField(tables, lanes), one, two };
}

/** The lanes with a 0 after each, their cost, and the steps that are to be looked at again. */
function shown({ lanes, changed }: Field, places: number): string {
  const order = new Int32Array(places);
  saveLanes(lanes, order);
  const marked = [...changed.keys()].filter((step) => changed[step] === 1);
  return `${order.join(' ')} = ${lanesCost(lanes)}, again ${marked.join(' ')}`;
}

// Where a change is drawn and which of equals is taken bears on every order after it; what is meant shows here.
it.each([1, 2, 3])('pinned: what is shaken, settled and crossed at %s cells', async (cells) => {
  const lines: string[] = [];
  for (let seed = 1; seed <= 12; seed += 1) {
    const { field, one, two } = fieldOf(seed, cells);
    const random = randomFrom(seed);
    const tell = (what: string) => lines.push(`${seed} ${what}: ${shown(field, one.length)}`);
    tell('begun');
    shake(field, random, 1 + (seed % 4));
    tell('shaken');
    settle(field, seed % cells);
    tell('settled near');
    for (const lane of field.lanes) markChanged(lane, field.changed, 1, lane.length);
    settle(field, 0);
    tell('settled');
    const scratch = { kept: new Uint8Array(16), child: new Int32Array(one.length) };
    crossOver(one, two, random, scratch);
    lines.push(`${seed} crossed: ${scratch.child.join(' ')}`);
  }
  await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`moves-${cells}.pinned.txt`);
});
