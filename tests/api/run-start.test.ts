import path from 'node:path';
import Database from 'better-sqlite3';
import type { Assignment, Job, Run } from '@tackboard/contract';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { monday, startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { passFirstPiece, startRun } from '../support/make-batch.js';
import { boothStep } from '../support/repeat-part.js';
import {
  certifyOperator,
  certifyWelder,
  robotShop,
  type RobotShop,
} from '../support/robot-shop.js';

let shop: TestShop;
let robot: RobotShop;
let operator: Agent;
let welder: Agent;
let coordinator: Agent;
let office: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  await certifyWelder(shop, shop.people.welder);
  operator = await signIn('O03');
  welder = await signIn('W07');
  coordinator = await shop.as('coordinator');
  office = await shop.as('office');
});
beforeEach(async () => {
  shop.clock.set(monday);
  for (const cell of ['R1', 'M1'] as const) {
    const view = await office.get(`/api/cells/${shop.cells[cell].id}/view`);
    const runId = view.body.held?.step.holder?.runId;
    if (runId === undefined) continue;
    await coordinator.post(`/api/runs/${runId}/put-down`).send({}).expect(200);
  }
});
afterAll(async () => shop.close());

async function signIn(code: string): Promise<Agent> {
  const agent = shop.stranger();
  await agent.post('/api/session').send({ code, password: testPassword }).expect(200);
  return agent;
}
async function pulled(job: Job, cell: 'R1' | 'M1', agent: Agent): Promise<Run> {
  const path = `/api/cells/${shop.cells[cell].id}/pull`;
  const answer = await agent.post(path).send({ jobStepId: job.steps[0]?.id });
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body.run;
}
const atRobot = async (options: object = {}) => pulled(await robot.job(options), 'R1', operator);
const atBooth = async () =>
  pulled(await robot.job({ steps: [{ ...boothStep, wpsNumber: null }] }), 'M1', welder);
const act = async (run: Pick<Run, 'id'>, what: string, body: object = {}, agent = operator) =>
  agent.post(`/api/runs/${run.id}/${what}`).send(body);
const asKept = { program: { revision: '4' } };
const historyOf = async ({ id }: Run) =>
  (await office.get(`/api/history/run/${id}`).expect(200)).body.entries;
const assignmentsOf = async (run: Run): Promise<Assignment[]> => {
  const [step] = (await office.get('/api/board')).body.lanes
    .flatMap(({ steps }: { steps: { id: string; jobId: string }[] }) => steps)
    .filter(({ id }: { id: string }) => id === run.jobStepId);
  const { assignments } = (await office.get(`/api/assignments?jobId=${step.jobId}`)).body;
  return assignments.filter(({ topic }: Assignment) => topic === 'start');
};

describe('doors', () => {
  let run: Run;
  beforeEach(async () => {
    run = await atBooth();
  });
  firstFour('start', () => shop, {
    method: 'post',
    path: () => `/api/runs/${run.id}/as-shown`,
    body: () => ({}),
    allowed: 'welder',
    refused: 'office',
    malformed: {
      body: { differences: [{ point: 'weather', note: 'it rains' }] },
      field: 'body.differences.0.point',
    },
  });
  it('names a point once, and says what is not as shown', async () => {
    const note = 'FX-012 is in its place';
    const twice = await act(
      ...([
        run,
        'as-shown',
        {
          differences: [
            { point: 'fixture', note },
            { point: 'fixture', note },
          ],
        },
      ] as const),
      welder,
    );
    expect([twice.status, twice.body.fields[0].field]).toEqual([400, 'body.differences']);
    const silent = { differences: [{ point: 'fixture', note: '' }] };
    expect((await act(run, 'as-shown', silent, welder)).status).toBe(400);
  });
  it('knows no run of another number', async () => {
    const unknown = { id: '00000000-0000-4000-8000-000000000000' };
    expect((await act(unknown, 'as-shown', {}, welder)).status).toBe(404);
  });
});

describe('the start of a run', () => {
  it('comes before the first count, whatever is counted', async () => {
    const run = await atBooth();
    expect(run).toMatchObject({ startAsked: true, start: null });
    for (const count of [{ good: 1 }, { rework: 1 }, { scrap: 1 }]) {
      const early = await act(run, 'counts', count, welder);
      expect([early.status, early.body.code]).toEqual([409, 'NOT_NOW']);
      expect(early.body.message).toContain('nobody has confirmed yet what stands there');
    }
    const { body } = await act(run, 'as-shown', {}, welder);
    expect(body.run.start).toEqual({ at: monday, personCode: 'W07', differences: [] });
    expect((await act(run, 'counts', { good: 1 }, welder)).status).toBe(200);
  });

  it('is kept as who, when and from which device, with the time at the cell', async () => {
    const run = await atBooth();
    shop.clock.set('2026-10-05T05:20:00.000Z');
    const happenedAt = '2026-10-05T05:10:00.000Z';
    await act(run, 'as-shown', { happenedAt }, welder);
    const [entry] = await historyOf(run);
    expect(entry).toMatchObject({
      ...{ type: 'run.started', actorCode: 'W07', meaning: 'checked' },
      after: { at: happenedAt, differences: [], saidAt: happenedAt },
    });
  });

  it('sent twice under one key is said once', async () => {
    const run = await atRobot();
    const note = 'Clamp 2 is worn';
    const body = { ...asKept, differences: [{ point: 'fixture', note }] };
    const key = '7c1c0c55-6a53-4f38-9a43-0d9be0d0a001';
    const send = async () =>
      operator.post(`/api/runs/${run.id}/as-shown`).set('idempotency-key', key).send(body);
    const [first, again] = [await send(), await send()];
    expect(again.body).toEqual(first.body);
    const started = (await historyOf(run)).filter(
      ({ type }: { type: string }) => type === 'run.started',
    );
    expect(started).toHaveLength(1);
    expect(await assignmentsOf(run)).toHaveLength(1);
  });

  it('is asked of whoever holds the run, and of nobody else', async () => {
    const run = await atRobot();
    expect((await act(run, 'as-shown', asKept, welder)).status).toBe(409);
    expect((await act(run, 'as-shown', asKept, coordinator)).status).toBe(200);
  });

  it('is not asked again after a stop or of whoever takes over; it is after the next pull', async () => {
    const second = await robot.addPerson('O05', 'Ove Lindqvarn');
    await certifyOperator(shop, second, { cellId: shop.cells.R1.id, confirmedOn: '2026-09-01' });
    const run = await atRobot();
    await startRun(operator, run.id);
    await act(run, 'stops', { cause: 'break' });
    expect((await act(run, 'resume')).body.start).toMatchObject({ personCode: 'O03' });
    const given = await act(run, 'hand-over', { toPersonId: second.id, note: 'none made yet' });
    const theirs: Run = given.body.run;
    expect(theirs).toMatchObject({ startAsked: true, start: { personCode: 'O03' } });
    const agent = await signIn('O05');
    expect((await act(theirs, 'counts', { good: 1 }, agent)).status).toBe(200);
    await act(theirs, 'put-down', {}, agent);
    const path = `/api/cells/${shop.cells.R1.id}/pull`;
    const again = await operator.post(path).send({ jobStepId: run.jobStepId });
    expect(again.body.run).toMatchObject({ startAsked: true, start: null });
  });

  it('does not hold up a run that began before it was asked', async () => {
    const run = await atBooth();
    const file = new Database(path.join(shop.folder, 'tackboard.sqlite'));
    // As the migration leaves every run that is there already.
    file.prepare('UPDATE "Run" SET "startAsked" = false WHERE "id" = ?').run(run.id);
    file.close();
    expect((await act(run, 'counts', { good: 1 }, welder)).status).toBe(200);
  });
});

describe('what is not as shown', () => {
  it('is told to the office by name, stays until a person has seen to it, and does not stop the work', async () => {
    const run = await atRobot();
    const differences = [
      { point: 'fixture', note: 'Clamp 2 is worn' },
      { point: 'settings', note: 'Gas flow reads 12' },
    ];
    const { body } = await act(run, 'as-shown', { ...asKept, differences });
    expect(body.run.start.differences).toEqual(differences);
    expect(body.words.join(' ')).toContain(
      'At R1, fixture and torch not as shown: Clamp 2 is worn. Told to S01 ',
    );
    expect((await act(run, 'counts', { good: 1 })).status).toBe(200);
    await shop.context.services.assignments.settle();
    const told = await assignmentsOf(run);
    expect(
      told.map(({ topic, personCode, text, closedAs }) => [topic, personCode, text, closedAs]),
    ).toEqual(
      expect.arrayContaining([
        ['start', 'S01', 'At R1, fixture and torch not as shown: Clamp 2 is worn', null],
        ['start', 'C01', 'At R1, settings not as shown: Gas flow reads 12', null],
      ]),
    );
    const [entry] = (await historyOf(run)).filter(
      ({ type }: { type: string }) => type === 'run.started',
    );
    expect(entry.reason).toBe('fixture and torch: Clamp 2 is worn; settings: Gas flow reads 12');
    const [mine] = told.filter(({ personCode }) => personCode === 'S01');
    const cleared = await office
      .post(`/api/assignments/${mine?.id}/clear`)
      .send({ note: 'new clamp', expectedVersion: mine?.version });
    expect(cleared.body).toMatchObject({ closedAs: 'cleared', topic: 'start' });
  });

  it('at extraction or guards keeps parts from being counted until it is put right', async () => {
    const run = await atBooth();
    const differences = [{ point: 'safety', note: 'Arm of the extraction is off' }];
    const told = await act(run, 'as-shown', { differences }, welder);
    expect(told.body.words.join(' ')).toContain('Told to M01');
    const refused = await act(run, 'counts', { good: 1 }, welder);
    expect([refused.status, refused.body.code]).toEqual([409, 'NOT_NOW']);
    expect(refused.body.message).toContain('Put them right and confirm the start again');
    expect((await act(run, 'as-shown', {}, welder)).status).toBe(200);
    expect((await act(run, 'counts', { good: 1 }, welder)).status).toBe(200);
    expect(await assignmentsOf(run)).toHaveLength(1);
  });
});

describe('a robot', () => {
  it('does not start before somebody has read which program revision is loaded', async () => {
    const run = await atRobot();
    const silent = await act(run, 'as-shown', {});
    expect([silent.status, silent.body.code]).toEqual([422, 'NEEDS_REASON']);
    expect(silent.body.message).toContain('program P-143');
    expect(silent.body.fields[0].field).toBe('body.program');
    const other = await act(run, 'as-shown', { program: { revision: '5' } });
    expect([other.status, other.body.code]).toEqual([422, 'NEEDS_REASON']);
    expect(other.body.fields[0].field).toBe('body.program.note');
    expect((await act(run, 'counts', { good: 1 })).status).toBe(409);
    const noted = { program: { revision: '5', note: 'corner slowed down' } };
    expect((await act(run, 'as-shown', noted)).status).toBe(200);
    const memory = await office.get(`/api/job-steps/${run.jobStepId}/memory`);
    expect(memory.body).toMatchObject({
      programAtStart: '5',
      changed: [{ variable: 'programRevision', from: '4', to: '5', why: 'corner slowed down' }],
    });
  });

  it('has no program to say where its set-up names none', async () => {
    const run = await atRobot({ setUp: null });
    expect((await act(run, 'as-shown', asKept)).status).toBe(409);
    expect((await act(run, 'as-shown', {})).status).toBe(200);
  });

  it('does not close a batch before the program was read in this run; it can be put down unfinished', async () => {
    const run = await atRobot({ quantity: 2 });
    await passFirstPiece(operator, run.id);
    await act(run, 'counts', { good: 1 });
    await act(run, 'close-out', { programRevision: '4' });
    expect((await act(run, 'put-down')).status).toBe(200);
    const path = `/api/cells/${shop.cells.R1.id}/pull`;
    const next: Run = (await operator.post(path).send({ jobStepId: run.jobStepId })).body.run;
    await passFirstPiece(operator, next.id);
    await act(next, 'counts', { good: 1 });
    const silent = await act(next, 'put-down');
    expect([silent.status, silent.body.code]).toEqual([422, 'NEEDS_REASON']);
    expect(silent.body.message).toContain('which revision of program P-143 is loaded');
    expect((await act(next, 'put-down', { batchComplete: true })).status).toBe(422);
    const changed = await act(next, 'close-out', { programRevision: '5' });
    expect([changed.status, changed.body.code]).toEqual([422, 'NEEDS_REASON']);
    await act(next, 'close-out', { programRevision: '5', programNote: 'end crater filled' });
    expect((await act(next, 'put-down')).status).toBe(200);
  });
});
