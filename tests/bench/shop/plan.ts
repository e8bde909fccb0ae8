import type { ShopCell } from './base.js';
import type { Dice } from './dice.js';
import type { ShopPart, ShopStep } from './parts.js';
import type { ShopSize } from './size.js';

export interface PlannedStep {
  readonly id: string;
  readonly step: ShopStep;
  readonly cell: ShopCell;
  readonly runCount: number;
}

export interface PlannedJob {
  readonly id: string;
  readonly number: number;
  readonly part: ShopPart;
  readonly quantity: number;
  readonly createdAt: Date;
  readonly open: boolean;
  readonly steps: readonly PlannedStep[];
}

interface Shop {
  readonly dice: Dice;
  readonly size: ShopSize;
  readonly parts: readonly ShopPart[];
  readonly cells: readonly ShopCell[];
  readonly opened: Date;
  readonly now: Date;
}

interface Drawn {
  readonly part: ShopPart;
  readonly open: boolean;
}

/** Which jobs there were and are, which cells they went to, and how many runs each step took. */
export function planJobs(shop: Shop): PlannedJob[] {
  const { dice, size, cells, opened, now } = shop;
  const drawn = drawJobs(shop);
  const doneSteps = drawn.filter(({ open }) => !open).flatMap(({ part }) => part.steps).length;
  const least = Math.floor(size.runs / doneSteps);
  const oneMore = size.runs - least * doneSteps;
  const load = new Map(cells.map(({ id }) => [id, 0]));
  let planned = 0;
  return drawn.map(({ part, open }, at) => {
    const spanMs = now.getTime() - opened.getTime();
    const createdAt = new Date(opened.getTime() + (spanMs * at) / drawn.length);
    const steps = part.steps.map((step) => {
      const runCount = open ? 0 : least + (planned < oneMore ? 1 : 0);
      if (!open) planned += 1;
      const cell = leastLoaded(cells, load, step.cellKind);
      load.set(cell.id, (load.get(cell.id) ?? 0) + (open ? least : runCount));
      return { id: dice.id(createdAt), step, cell, runCount };
    });
    const quantity = dice.whole(24, 120);
    return { id: dice.id(createdAt), number: at + 1, part, quantity, createdAt, open, steps };
  });
}

/** The newest jobs are the open ones: as many as give the wanted number of steps in the queues. */
function drawJobs({ dice, size, parts }: Shop): Drawn[] {
  const drawn: Drawn[] = [];
  let queued = 0;
  for (let at = 0; at < size.jobs; at += 1) {
    const part = dice.of(parts);
    const open = queued + part.steps.length <= size.waiting;
    if (open) queued += part.steps.length;
    drawn.push({ part, open });
  }
  return drawn.reverse();
}

function leastLoaded(
  cells: readonly ShopCell[],
  load: ReadonlyMap<string, number>,
  kind: ShopCell['kind'],
): ShopCell {
  const [found] = cells
    .filter((cell) => cell.kind === kind)
    .toSorted((a, b) => (load.get(a.id) ?? 0) - (load.get(b.id) ?? 0));
  if (found === undefined) throw new Error(`The shop has no ${kind}.`);
  return found;
}
