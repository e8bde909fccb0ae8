import { randomUUID } from 'node:crypto';
import type { Job, Lane, OrderProposal } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { addCustomer, addReleasedPart, boothStep } from '../support/repeat-part.js';
import { robotShop, type RobotShop } from '../support/robot-shop.js';
import { signedIn } from '../support/signed-in.js';

let shop: TestShop;
let robot: RobotShop;
let office: Agent;

const shifts = [1, 2, 3, 4, 5].map((weekday) => ({
  ...{ weekday, startTime: '06:00', endTime: '22:00', breakMin: 60, staffed: true },
}));

async function setHours(cellId: string, open: boolean): Promise<void> {
  const { cells } = shop.context.services;
  const { version } = await cells.get(cellId);
  await cells.setCalendar(shop.actor('manager'), cellId, {
    ...{ shifts: open ? shifts : [], dayChanges: [], reason: null, expectedVersion: version },
  });
}

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  office = await signedIn(shop, 'office');
  await setHours(shop.cells.R1.id, true);
  await setHours(shop.cells.M1.id, true);
});
afterAll(async () => shop.close());

async function lanes(): Promise<Lane[]> {
  return (await office.get('/api/board').expect(200)).body.lanes;
}
const places = async () =>
  (await lanes()).map(({ cellCode, steps }) => [cellCode, ...steps.map(({ id }) => id)]);

async function ended(id: string): Promise<OrderProposal> {
  for (let tries = 0; tries < 600; tries += 1) {
    const { body } = await office.get(`/api/proposals/${id}`).expect(200);
    if ((body as OrderProposal).state !== 'searching') return body;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error('The proposal did not end.');
}

/** Asks, waits for the end, and sees to it that no step has moved. */
async function proposed(): Promise<OrderProposal> {
  const before = await places();
  const asked = await office.post('/api/proposals');
  expect(asked.status, asked.body.message).toBe(200);
  const proposal = await ended(asked.body.id);
  expect(await places()).toEqual(before);
  return proposal;
}

async function cancel({ id }: Pick<Job, 'id'>): Promise<void> {
  const { version } = (await office.get(`/api/jobs/${id}`)).body;
  const body = { reason: 'not wanted any more', expectedVersion: version };
  await office.post(`/api/jobs/${id}/cancel`).send(body).expect(200);
}

describe('what cannot be planned well is answered in words, and the run queues stay as they are', () => {
  it('work that is due before it can begin', async () => {
    const { id } = await addReleasedPart(shop, { number: 'P-PAST' });
    const customerId = (await addCustomer(shop, 'Alder')).id;
    const line = {
      ...{ partId: id, orderedRevision: 'B', quantity: 4, dueOn: '2026-10-02' },
      pastDueReason: 'the customer waits for the rest',
    };
    const order = { customerId, customerOrder: '1', lines: [line] };
    const job = (await office.post('/api/orders').send(order).expect(200)).body.jobs[0] as Job;
    const { state, notes } = await proposed();
    expect(state).toBe('done');
    expect(notes).toContainEqual(
      `Past their due date already, so late in any order: job ${job.number}.`,
    );
    await cancel(job);
  });

  it('a cell whose calendar has no hours', async () => {
    const job = await robot.job({ steps: [boothStep], setUp: null });
    const other = await robot.job();
    await setHours(shop.cells.M1.id, false);
    const { state, notes, moves } = await proposed();
    expect([state, moves]).toEqual(['done', []]);
    expect(notes.join(' ')).toContain('M1 has no working hours: 1 step that stands or waits there');
    expect(notes.join(' ')).toContain('The manager sets hours under Cells.');
    await setHours(shop.cells.M1.id, true);
    await cancel(job);
    await cancel(other);
  });

  it('a step that no cell can do: its only cell went out of use, and none is left to order for', async () => {
    const job = await robot.job();
    const { cells } = shop.context.services;
    const setActive = async (active: boolean) => {
      const { version } = await cells.get(shop.cells.R1.id);
      const change = { active, expectedVersion: version };
      await cells.edit(shop.actor('manager'), shop.cells.R1.id, change);
    };
    await setActive(false);
    const asked = await office.post('/api/proposals');
    if (asked.status === 200) expect((await ended(asked.body.id)).moves).toEqual([]);
    else expect(asked.body.message).toMatch(/^There is nothing to put in order\. /);
    expect((await places()).flat()).toContain(job.steps[0]?.id);
    const before = await places();
    await expect(robot.job({ setUp: null })).rejects.toThrow(
      'Step 1 needs a robot, and the shop has no active one. Add the cell, or change the step.',
    );
    expect(await places()).toEqual(before);
    await setActive(true);
    await cancel(job);
  });

  it('steps that wait for each other in a loop', async () => {
    const second = { ...boothStep, number: 2, name: 'Weld out' };
    const job = await robot.job({ steps: [boothStep, second], setUp: null });
    const [tack] = job.steps;
    const last = { cellId: shop.cells.M1.id, beforeStepId: null, expectedVersion: 1 };
    await office.post(`/api/job-steps/${tack?.id}/move`).send(last).expect(200);
    const { state, trouble } = await proposed();
    expect(state).toBe('failed');
    expect(trouble).toContain('steps wait for each other for ever');
    await cancel(job);
  });

  it('a step of no minutes at all', async () => {
    const none = { ...boothStep, setUpMin: 0, firstPieceMin: 0, unitMin: 0 };
    const job = await robot.job({ steps: [none], setUp: null });
    expect(job.steps[0]?.plannedMin).toBe(0);
    const { state, trouble, proven } = await proposed();
    expect([state, trouble, proven]).toEqual(['done', null, true]);
    await cancel(job);
  });

  it('a shop in which all work is begun and held where it is', async () => {
    const job = await robot.job();
    const operator = shop.stranger();
    const sent = { code: robot.operator.code, password: testPassword };
    await operator.post('/api/session').send(sent).expect(200);
    const pull = `/api/cells/${shop.cells.R1.id}/pull`;
    const pulled = await operator.post(pull).send({ jobStepId: job.steps[0]?.id });
    expect(pulled.status, pulled.body.message).toBe(200);
    expect(await proposed()).toMatchObject({ state: 'done', proven: true, moves: [] });
    await operator.post(`/api/runs/${pulled.body.run.id}/put-down`).send({}).expect(200);
    await cancel(job);
  });

  it('five thousand steps', { timeout: 240_000 }, async () => {
    const job = await robot.job({ steps: [boothStep], setUp: null });
    await copyJob(job, 5_000);
    const { state, trouble, moves } = await proposed();
    expect([state, moves]).toEqual(['failed', []]);
    expect(trouble).toMatch(/1500/);
    expect((await places()).flat().length).toBeGreaterThan(5_000);
  });
});

/** So many jobs like one, with a step each; a shop that orders them all would take minutes. */
async function copyJob({ id }: Job, count: number): Promise<void> {
  const { database, uow } = shop.context;
  const like = await database.reader.job.findUniqueOrThrow({
    where: { id },
    include: { steps: true },
  });
  const { steps, ...row } = like;
  const jobs = Array.from({ length: count }, (_, at) => ({
    ...{ ...row, id: randomUUID(), number: 1_000_000 + at },
  }));
  // Some at a time: nobody holds the one writer for long.
  for (let from = 0; from < count; from += 500) {
    const some = jobs.slice(from, from + 500);
    await uow.write(shop.actor('manager'), async ({ tx }) => {
      await tx.job.createMany({ data: some });
      await tx.jobStep.createMany({
        data: some.map((each, at) => ({
          ...{ ...steps[0]!, id: randomUUID(), jobId: each.id, rank: 1_000_000 + from + at },
        })),
      });
    });
  }
}
