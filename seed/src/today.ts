import type { Run } from '@tackboard/contract';
import { demoLoads, demoLots } from './shop/consumables.js';
import { loadFor, passFirstPiece, startAsShown, takeOrder, type Story } from './story.js';
import { by, got, type FiledPart, type ShopFile } from './shop-file.js';

interface Waiting {
  readonly part: string;
  readonly quantity: number;
  readonly ageDays: number;
  readonly leadDays: number;
  readonly revision?: string;
  readonly kitMissing?: boolean;
}

/** What waits today: most of it ready, some late, some that lacks a procedure, a print or its parts. */
const waiting: readonly Waiting[] = [
  { part: 'T-300-1', quantity: 10, ageDays: 12, leadDays: 11 },
  { part: 'K-118-12', quantity: 14, ageDays: 9, leadDays: 8 },
  { part: 'X-210-01', quantity: 15, ageDays: 5, leadDays: 8 },
  { part: 'X-210-02', quantity: 12, ageDays: 4, leadDays: 9 },
  { part: 'X-210-03', quantity: 12, ageDays: 4, leadDays: 10 },
  { part: 'X-210-01', quantity: 12, ageDays: 2, leadDays: 9, revision: 'C' },
  { part: 'V-150-1', quantity: 12, ageDays: 6, leadDays: 12 },
  { part: 'V-150-2', quantity: 10, ageDays: 3, leadDays: 14 },
  { part: 'K-240-A', quantity: 12, ageDays: 6, leadDays: 9 },
  { part: 'K-240-C', quantity: 12, ageDays: 3, leadDays: 12 },
  { part: 'S-530-1', quantity: 15, ageDays: 5, leadDays: 10 },
  { part: 'T-300-2', quantity: 8, ageDays: 5, leadDays: 12, kitMissing: true },
  { part: 'T-410-20', quantity: 8, ageDays: 6, leadDays: 11 },
  { part: 'P-610-2', quantity: 6, ageDays: 4, leadDays: 13 },
  { part: 'P-610-3', quantity: 4, ageDays: 2, leadDays: 16 },
  { part: 'S-520-L', quantity: 14, ageDays: 6, leadDays: 10 },
  { part: 'P-640-10', quantity: 12, ageDays: 4, leadDays: 11 },
  { part: 'L-810-500', quantity: 14, ageDays: 3, leadDays: 12 },
  { part: 'E-710-2', quantity: 10, ageDays: 5, leadDays: 9 },
  { part: 'E-730-1', quantity: 10, ageDays: 3, leadDays: 13 },
  { part: 'Q-905-1', quantity: 8, ageDays: 7, leadDays: 14 },
  { part: 'L-810-600', quantity: 14, ageDays: 1, leadDays: 14 },
];

export async function queueWhatWaits(story: Story): Promise<void> {
  const { shop } = story;
  for (const [index, one] of waiting.entries()) {
    const order = await takeOrder(story, partOf(shop, one.part), one.quantity, shop.days.today, {
      ageDays: one.ageDays,
      leadDays: one.leadDays,
      takenAtMin: 16 * 60 + index,
      ...(one.revision === undefined ? {} : { revision: one.revision }),
    });
    const step = order.jobs[0]?.steps[0];
    if (one.kitMissing === true && step !== undefined) {
      await shop.context.services.orders.setKit(by(shop, 'S01'), step.id, {
        complete: false,
        note: 'Side plates are still at the laser',
      });
    }
  }
}

/** Two jobs are in hand when the shop is opened: one at a robot, one at a booth. */
export async function workInHand(story: Story): Promise<void> {
  const { shop } = story;
  const { services } = shop.context;
  const work = [
    { cell: 'R2', person: 'O08', part: 'K-240-B', quantity: 12, done: 7 },
    { cell: 'M2', person: 'W07', part: 'L-810-400', quantity: 14, done: 5 },
  ];
  const nowMin = minuteOfNow(shop);
  for (const { cell, person, part, quantity, done } of work) {
    const filed = partOf(shop, part);
    const order = await takeOrder(story, filed, quantity, shop.days.today, {
      ageDays: 3,
      leadDays: 6,
    });
    const step = order.jobs[0]?.steps.at(-1);
    if (step === undefined) throw new Error(`The order for ${part} has no step.`);
    shop.clock.set(shop.days.at(shop.days.today, nowMin - 75));
    await loadFor(story, filed.family, cell);
    const { run } = await services.runs.pull(by(shop, person), got(shop.cells, cell).id, {
      jobStepId: step.id,
    });
    shop.clock.set(shop.days.at(shop.days.today, nowMin - 50));
    const robot = filed.family.kind === 'robot';
    await startAsShown(shop, by(shop, person), run.id, robot);
    await passFirstPiece(shop, by(shop, person), run.id);
    const changedAfter = robot ? 4 : 0;
    if (changedAfter > 0) await changeMidBatch(shop, by(shop, person), run, changedAfter);
    shop.clock.set(shop.days.at(shop.days.today, nowMin - 5));
    await services.runs.count(by(shop, person), run.id, {
      good: done - changedAfter,
      rework: 0,
      scrap: 0,
      beyondBatchConfirmed: false,
      happenedAt: null,
    });
  }
}

/** The spool ran out and the contact distance was changed after some parts: the job knows both by itself. */
async function changeMidBatch(
  shop: ShopFile,
  actor: ReturnType<typeof by>,
  run: Run,
  parts: number,
): Promise<void> {
  const { consumables, runs } = shop.context.services;
  const { loads } = await consumables.feeder(run.cellId);
  const former = loads.find(({ kind }) => kind === 'wire');
  const counted = { rework: 0, scrap: 0, beyondBatchConfirmed: false, happenedAt: null };
  shop.clock.set(shop.days.at(shop.days.today, minuteOfNow(shop) + 40));
  await runs.count(actor, run.id, { ...counted, good: parts });
  const change = { variable: 'contactTipMm', to: 16, why: 'Too much spatter' } as const;
  await runs.change(actor, run.id, change);
  const next = demoLots.find(
    ({ item, number }) => item === former?.itemName && number !== former.lotNumber,
  );
  if (next === undefined) return;
  const lotId = got(shop.lots, next.number).id;
  await consumables.load(actor, run.cellId, { lotId, amount: 15 });
}

/** What hangs at the cells when the shop is opened; the robot's spool is nearly empty. */
export async function loadToday(shop: ShopFile): Promise<void> {
  for (const { cell, lot, amount } of demoLoads) {
    await shop.context.services.consumables.load(by(shop, 'S02'), got(shop.cells, cell).id, {
      lotId: got(shop.lots, lot).id,
      amount,
    });
  }
}

function minuteOfNow(shop: ShopFile): number {
  return (shop.context.clock.now().getTime() - shop.days.at(shop.days.today, 0).getTime()) / 60_000;
}

function partOf(shop: ShopFile, number: string): FiledPart {
  const part = shop.parts.find((one) => one.number === number);
  if (part === undefined)
    throw new Error(`The demo shop names the part ${number}, but it is not on file.`);
  return part;
}
