import type { Order } from '@tackboard/contract';
import { demoLots } from './shop/consumables.js';
import { demoProgramRevision, type DemoFamily } from './shop/parts.js';
import type { Random } from './random.js';
import { by, got, type FiledPart, type ShopFile } from './shop-file.js';

/** Who works where; the first one does most of it. */
const crew: Readonly<Record<string, readonly string[]>> = {
  M1: ['W03', 'W09'],
  M2: ['W07', 'W03'],
  M3: ['W11'],
  R1: ['O03', 'O08'],
  R2: ['O08', 'O03'],
};
const dayEndsMin: Readonly<Record<string, number>> = {
  M1: 15 * 60,
  M2: 15 * 60,
  M3: 15 * 60,
  R1: 18.5 * 60,
  R2: 18.5 * 60,
};
/** A small shop has no work for every hour; the rest of the day is the manager's to see. */
const jobsPerDay: Readonly<Record<string, number>> = { M1: 2, M2: 2, M3: 2, R1: 3, R2: 3 };
const dayBeginsMin = 7 * 60;
const stopCauses = [
  'waitingParts',
  'waitingProgram',
  'waitingInspection',
  'waitingPerson',
  'fault',
  'break',
] as const;

export interface Story {
  readonly shop: ShopFile;
  readonly random: Random;
  /** What hangs at each cell now, by kind. */
  readonly loaded: Map<string, string>;
}

/** Orders and makes one part after the other at a cell until its day is full. */
export async function workDay(story: Story, cellCode: string, day: string): Promise<number> {
  const { shop, random } = story;
  const mine = shop.parts.filter(
    (part) =>
      part.family.setUp.cell === cellCode && part.family.tackedAt === undefined && makeable(part),
  );
  let minute = dayBeginsMin + random.between(2, 15);
  let made = 0;
  while (made < (jobsPerDay[cellCode] ?? 0)) {
    const part = random.pick(mine);
    const quantity = Math.max(2, part.family.batch + random.whole(-2, 2));
    const neededMin = durationMin(part.family, quantity);
    if (minute + neededMin > (dayEndsMin[cellCode] ?? 0) + 20) break;
    const order = await takeOrder(story, part, quantity, day, {
      ageDays: random.whole(3, 12),
      leadDays: random.whole(8, 18),
    });
    minute = await makeJob(story, part, order, cellCode, day, minute);
    made += 1;
    minute += random.between(6, 25);
  }
  return made;
}

/** Weighed down or missing papers: these wait in today's queue and were never made. */
function makeable(part: FiledPart): boolean {
  return part.family.wps !== 'WPS-031' && part.number !== 'X-210-03' && part.family.coded !== true;
}

function durationMin(family: DemoFamily, quantity: number): number {
  return (family.kind === 'robot' ? 30 : 18) + quantity * family.unitMin;
}

export async function takeOrder(
  { shop, random }: Pick<Story, 'shop' | 'random'>,
  part: FiledPart,
  quantity: number,
  day: string,
  when: {
    readonly ageDays: number;
    readonly leadDays: number;
    readonly revision?: string;
    readonly takenAtMin?: number;
  },
): Promise<Order> {
  const { days, clock, context } = shop;
  const orderedOn = days.plus(day, -when.ageDays);
  clock.set(days.at(orderedOn, when.takenAtMin ?? random.between(8 * 60, 16 * 60)));
  return context.services.orders.add(by(shop, random.next() < 0.7 ? 'S01' : 'S02'), {
    customerId: got(shop.customers, part.family.customer),
    customerOrder: `${part.family.customer.slice(0, 2).toUpperCase()}-${random.whole(10_000, 99_999)}`,
    lines: [
      {
        partId: part.partId,
        orderedRevision: when.revision ?? 'B',
        quantity,
        dueOn: days.plus(orderedOn, when.leadDays),
        ...{ pastDueReason: null, drawingPrint: null },
        quantityConfirmed: true,
        partConfirmed: true,
        cells: [],
      },
    ],
    entryMs: random.whole(24_000, 95_000),
  });
}

/** From pull to put-down; answers the minute of the day when it is down. */
async function makeJob(
  story: Story,
  part: FiledPart,
  order: Order,
  cellCode: string,
  day: string,
  startMin: number,
): Promise<number> {
  const { shop, random } = story;
  const { services } = shop.context;
  const { family } = part;
  const step = order.jobs[0]?.steps[0];
  const job = order.jobs[0];
  if (step === undefined || job === undefined)
    throw new Error(`The order for ${part.number} has no step.`);
  const at = (minute: number) => shop.clock.set(shop.days.at(day, minute));
  const [first = '', second = first] = crew[cellCode] ?? [];
  const who = by(shop, random.next() < 0.75 ? first : second);
  at(startMin - 2);
  await loadFor(story, family, cellCode);
  at(startMin);
  const { run } = await services.runs.pull(
    whoCan(story, who, family),
    got(shop.cells, cellCode).id,
    { jobStepId: step.id },
  );
  const actor = whoCan(story, who, family);
  const setUpMin = family.kind === 'robot' ? random.between(18, 34) : random.between(7, 14);
  let minute = startMin + setUpMin;
  at(minute);
  const robot = family.kind === 'robot';
  await startAsShown(shop, actor, run.id, robot);
  await services.runs.read(actor, run.id, readingNear(family, random));
  await passFirstPiece(shop, actor, run.id);
  const scrap = random.next() < 0.12 ? 1 : 0;
  const stopAfter = random.next() < 0.4 ? random.whole(1, job.quantity - 1) : 0;
  for (let done = 0; done < job.quantity;) {
    const group = Math.min(random.whole(5, 8), job.quantity - done);
    minute += group * family.unitMin * random.between(0.92, 1.12);
    at(minute);
    const last = done + group === job.quantity;
    await services.runs.count(actor, run.id, {
      good: group,
      rework: random.next() < 0.05 ? 1 : 0,
      scrap: last ? scrap : 0,
      beyondBatchConfirmed: true,
      happenedAt: null,
    });
    done += group;
    if (stopAfter > 0 && done >= stopAfter && done - group < stopAfter)
      minute = await standStill(story, actor, run.id, day, minute);
  }
  minute += random.between(1, 4);
  at(minute);
  if (robot) {
    await services.runs.closeOut(actor, run.id, {
      ...{ programRevision: demoProgramRevision, programNote: null },
      ...{ fixture: null, watchOuts: null },
    });
  }
  await services.runs.putDown(actor, run.id, {
    setUpMin: Math.round(setUpMin),
    arcMinTyped: null,
    note: '',
    batchComplete: false,
    happenedAt: null,
  });
  return minute;
}

/** All stands at the cell as the card shows it; a robot has its program loaded as it is kept. */
export async function startAsShown(
  { context }: ShopFile,
  actor: ReturnType<typeof by>,
  runId: string,
  robot: boolean,
): Promise<void> {
  const program = robot ? { revision: demoProgramRevision, note: null } : null;
  await context.services.runs.start(actor, runId, { differences: [], program, happenedAt: null });
}

/** The first piece as drawn or a little over, as a good one measures. */
export async function passFirstPiece(
  { context }: ShopFile,
  actor: ReturnType<typeof by>,
  runId: string,
): Promise<void> {
  const { quality } = context.services;
  const task = await quality.firstPieceOfRun(runId);
  if (task.passed) return;
  const welds = new Map(task.sizes.toReversed().map((size) => [size.weldNumber, size]));
  const sizes = [...welds.values()].map(({ weldNumber, measure, lowestMm }) => ({
    ...{ weldNumber, measure, measuredMm: Math.ceil(lowestMm * 10) / 10 },
  }));
  const found = { visual: 'accepted' as const, imperfections: [], note: '' };
  await quality.checkFirstPiece(actor, runId, { ...found, sizes });
}

/** A cored-wire or butt job goes to the one at that booth who has the certificate for it. */
function whoCan({ shop }: Story, wanted: ReturnType<typeof by>, family: DemoFamily) {
  if (family.process === '136') return by(shop, 'W09');
  if (family.welds.some((weld) => weld.joint === 'butt' && family.process === '135'))
    return by(shop, 'W03');
  if (family.welds.some((weld) => weld.position === 'PF')) return by(shop, 'W03');
  return wanted;
}

async function standStill(
  { shop, random }: Story,
  actor: ReturnType<typeof by>,
  runId: string,
  day: string,
  fromMin: number,
): Promise<number> {
  const { services } = shop.context;
  await services.runs.stop(actor, runId, {
    cause: random.pick(stopCauses),
    note: '',
    happenedAt: null,
  });
  const until = fromMin + random.between(4, 28);
  shop.clock.set(shop.days.at(day, until));
  await services.runs.resume(actor, runId, { happenedAt: null });
  return until;
}

/** Readings scatter round what is dialled by a few per cent, as meters do. */
function readingNear({ setUp }: DemoFamily, random: Random) {
  const near = (value: number | null, digits: number) =>
    value === null ? null : Number((value * random.between(0.985, 1.015)).toFixed(digits));
  return {
    weldNumber: 1,
    currentA: near(setUp.currentA, 0),
    voltageV: near(setUp.voltageV, 1),
    wireSpeedMMin: near(setUp.wireSpeedMMin, 1),
    travelMmMin: near(setUp.travelMmMin, 0),
    preheatC: setUp.preheatC === undefined ? null : setUp.preheatC + random.whole(0, 15),
    interpassC: null,
    instrument: null,
    place: null,
    happenedAt: null,
  };
}

const spoolKg = 15;
const cylinderL = 10_000;

/** Changes wire and gas where the next job wants others. */
export async function loadFor(
  story: Story,
  { setUp }: DemoFamily,
  cellCode: string,
): Promise<void> {
  await load(story, cellCode, 'wire', setUp.wire, spoolKg);
  await load(story, cellCode, 'gas', setUp.gas, cylinderL);
}

async function load(
  { shop, loaded }: Story,
  cellCode: string,
  kind: string,
  item: string,
  amount: number,
): Promise<void> {
  const key = `${cellCode} ${kind}`;
  if (loaded.get(key) === item) return;
  const lot = demoLots.findLast((one) => one.item === item);
  if (lot === undefined) throw new Error(`There is no lot of ${item}.`);
  await shop.context.services.consumables.load(by(shop, 'S02'), got(shop.cells, cellCode).id, {
    lotId: got(shop.lots, lot.number).id,
    amount: Math.min(amount, lot.amount / 3),
  });
  loaded.set(key, item);
}
