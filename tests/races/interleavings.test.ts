import fc from 'fast-check';
import { cells, type Board, type Job, type Person } from '@tackboard/contract';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { signFirstPiece } from '../support/make-batch.js';
import { certifyOperator, robotShop, type RobotShop } from '../support/robot-shop.js';

const seed = 20_261_005;
let shop: TestShop;
let robot: RobotShop;
let operators: Person[];
let cellIds: string[];

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  const { services } = shop.context;
  const second = await services.cells.add(
    shop.actor('manager'),
    cells.add.body.parse({ ...shop.cells.R1, code: 'R2' }),
  );
  cellIds = [shop.cells.R1.id, second.id];
  const other = await robot.addPerson('O04', 'Odd Hallgrim');
  operators = [robot.operator, other];
  const confirmedOn = '2026-09-01';
  await certifyOperator(shop, robot.operator, { cellId: second.id, confirmedOn });
  for (const cellId of cellIds) await certifyOperator(shop, other, { cellId, confirmedOn });
});
afterAll(async () => shop.close());

type Act =
  | { readonly kind: 'pull'; readonly who: number; readonly cell: number; readonly job: number }
  | { readonly kind: 'count'; readonly who: number; readonly good: number }
  | { readonly kind: 'putDown'; readonly who: number }
  | { readonly kind: 'handOver'; readonly who: number }
  | { readonly kind: 'move'; readonly job: number; readonly cell: number };

const one = fc.nat({ max: 1 });
const act: fc.Arbitrary<Act> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({
      ...{ kind: fc.constant('pull' as const), who: one, cell: one, job: fc.nat({ max: 2 }) },
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      ...{ kind: fc.constant('count' as const), who: one, good: fc.integer({ min: 1, max: 3 }) },
    }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('putDown' as const), who: one }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('handOver' as const), who: one }) },
  {
    weight: 2,
    arbitrary: fc.record({
      ...{ kind: fc.constant('move' as const), job: fc.nat({ max: 2 }), cell: one },
    }),
  },
);
/** Groups of acts: what is in one group happens at once. */
const acts = fc.array(fc.array(act, { minLength: 2, maxLength: 6, size: 'max' }), {
  ...{ minLength: 3, maxLength: 6, size: 'max' },
});

/** What one series of acts has done: which jobs it works on, and what was really counted on each. */
interface World {
  readonly jobs: readonly Job[];
  readonly counted: Map<string, number>;
}

/** Every act in a group starts before any of them has ended; a refusal is an answer like another. */
async function perform(world: World, act: Act): Promise<void> {
  try {
    await run(world, act);
  } catch (error) {
    if (!(error instanceof Error) || error.name !== 'Refusal') throw error;
  }
}

async function run({ jobs, counted }: World, act: Act): Promise<void> {
  const { runs, queue } = shop.context.services;
  if (act.kind === 'move') {
    const step = stepOf(jobs[act.job]);
    const found = await queue.step(step);
    await queue.move(shop.actor('office'), step, {
      ...{ cellId: cellIds[act.cell] ?? '', beforeStepId: null, reason: null },
      expectedVersion: found?.version ?? 1,
    });
    return;
  }
  const person = operators[act.who] as Person;
  const by = robot.by(person);
  if (act.kind === 'pull') {
    await runs.pull(by, cellIds[act.cell] ?? '', { jobStepId: stepOf(jobs[act.job]) });
    return;
  }
  const held = await heldBy(person);
  if (held === null) return;
  const happenedAt = null;
  if (act.kind === 'count') {
    const { good } = act;
    await signFirstPiece(shop, by, held.runId);
    await runs.count(by, held.runId, {
      ...{ good, rework: 0, scrap: 0, beyondBatchConfirmed: true, happenedAt },
    });
    counted.set(held.stepId, (counted.get(held.stepId) ?? 0) + good);
  } else if (act.kind === 'handOver') {
    const toPersonId = operators[1 - act.who]?.id ?? '';
    await runs.handOver(by, held.runId, { toPersonId, note: 'take over' });
  } else {
    await runs.putDown(by, held.runId, {
      ...{ setUpMin: null, arcMinTyped: null, note: '', batchComplete: false, happenedAt },
    });
  }
}

const stepOf = (job: Job | undefined) => job?.steps[0]?.id ?? '';
const board = async (): Promise<Board> => shop.context.services.queue.board();
const openSteps = async () => (await board()).lanes.flatMap(({ steps }) => steps);
async function heldBy(person: Person) {
  const held = (await openSteps()).find(({ holder }) => holder?.personId === person.id);
  return held?.holder ? { runId: held.holder.runId, stepId: held.id } : null;
}

async function mustHoldTogether({ jobs, counted }: World): Promise<void> {
  const { lanes } = await board();
  for (const { steps } of lanes) {
    expect(steps.filter(({ holder }) => holder !== null).length).toBeLessThanOrEqual(1);
    for (const { state, holder } of steps) expect(state === 'held').toBe(holder !== null);
  }
  const { runs } = shop.context.services;
  for (const job of jobs) {
    const step = lanes.flatMap((lane) => lane.steps).find(({ jobId }) => jobId === job.id);
    const all = (await runs.ofJob(job.id)).runs;
    const open = all.filter(({ endedAt }) => endedAt === null);
    expect(open.map(({ id }) => id)).toEqual(step?.holder ? [step.holder.runId] : []);
    const good = all.reduce((sum, { goodCount }) => sum + goodCount, 0);
    expect(good).toBe(counted.get(stepOf(job)) ?? 0);
    expect(step?.goodCount).toBe(good);
  }
}

async function clear({ jobs }: World): Promise<void> {
  const { runs, orders } = shop.context.services;
  for (const person of operators) {
    for (let held = await heldBy(person); held !== null; held = await heldBy(person)) {
      await runs.putDown(robot.by(person), held.runId, {
        ...{ setUpMin: null, arcMinTyped: null, note: '', batchComplete: false, happenedAt: null },
      });
    }
  }
  for (const { id } of jobs) {
    const { version } = await orders.job(id);
    await orders.cancelJob(shop.actor('office'), id, {
      ...{ reason: 'end of the series', expectedVersion: version },
    });
  }
}

it('keeps one holder a step, one step a cell and every count, however acts fall together', async () => {
  let countedParts = 0;
  await fc.assert(
    fc.asyncProperty(acts, fc.scheduler(), async (groups, scheduler) => {
      const jobs = [];
      // So many parts that no batch is complete before the series ends.
      for (let index = 0; index < 3; index += 1) {
        jobs.push(await robot.job({ quantity: 1000, setUp: null }));
      }
      const world: World = { jobs, counted: new Map() };
      for (const group of groups) {
        const started = group.map(async (act) => {
          await scheduler.schedule(Promise.resolve());
          await perform(world, act);
        });
        await scheduler.waitAll();
        await Promise.all(started);
        await mustHoldTogether(world);
      }
      countedParts += [...world.counted.values()].reduce((sum, good) => sum + good, 0);
      await clear(world);
    }),
    { seed, numRuns: 12, endOnFailure: true },
  );
  // The series did reach the acts they are about.
  expect(countedParts).toBeGreaterThan(0);
});
