import type { Job, Run } from '@tackboard/contract';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { monday, startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { passFirstPiece, startRun } from '../support/make-batch.js';
import { boothStep } from '../support/repeat-part.js';
import {
  bracketWeld,
  certifyOperator,
  certifyWelder,
  robotShop,
  robotStep,
  type RobotShop,
} from '../support/robot-shop.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let robot: RobotShop;
let operator: Agent;
let coordinator: Agent;
let office: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  await certifyWelder(shop, shop.people.welder);
  await certifyWelder(shop, shop.people.qa);
  operator = await signIn('O03');
  coordinator = await shop.as('coordinator');
  office = await shop.as('office');
});
beforeEach(async () => {
  shop.clock.set(monday);
  await putDownAll();
});
afterAll(async () => shop.close());

async function signIn(code: string): Promise<Agent> {
  const agent = shop.stranger();
  await agent.post('/api/session').send({ code, password: testPassword }).expect(200);
  return agent;
}

const first = ({ steps: [step] }: Job) => step?.id ?? '';
const pull = async (jobStepId: string | null, agent = operator, cell: 'R1' | 'M1' = 'R1') =>
  agent.post(`/api/cells/${shop.cells[cell].id}/pull`).send({ jobStepId });
const act = async (run: Run, what: string, body: object = {}, agent = operator) =>
  agent.post(`/api/runs/${run.id}/${what}`).send(body);
async function pulled(job: Job, agent = operator, cell: 'R1' | 'M1' = 'R1'): Promise<Run> {
  const answer = await pull(first(job), agent, cell);
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body.run;
}
const jobNow = async ({ id }: Job): Promise<Job> => (await office.get(`/api/jobs/${id}`)).body;

/** Leaves both cells free; the coordinator may in the holder's place. */
async function putDownAll(): Promise<void> {
  for (const cell of ['R1', 'M1'] as const) {
    const view = await office.get(`/api/cells/${shop.cells[cell].id}/view`);
    const runId = view.body.held?.step.holder?.runId;
    if (runId !== undefined) {
      await coordinator.post(`/api/runs/${runId}/put-down`).send({}).expect(200);
    }
  }
}

const boothJob = async (options: object = {}) =>
  robot.job({ steps: [{ ...boothStep, wpsNumber: null }], ...options });

describe('doors', () => {
  let job: Job;
  let run: Run;
  const atBooth = () => shop;
  const path = (what: string) => () => `/api/runs/${run.id}/${what}`;

  beforeEach(async () => {
    job = await boothJob();
    const welder = await signIn('W07');
    run = await pulled(job, welder, 'M1');
    await startRun(welder, run.id);
  });

  firstFour('run', atBooth, {
    method: 'get',
    path: () => `/api/runs/${run.id}`,
    allowed: 'office',
    malformed: { path: '/api/runs/4', field: 'params.runId' },
  });
  firstFour('runs of a job', atBooth, {
    method: 'get',
    path: () => `/api/jobs/${job.id}/runs`,
    allowed: 'welder',
    malformed: { path: '/api/jobs/4/runs', field: 'params.jobId' },
  });
  firstFour('count', atBooth, {
    method: 'post',
    path: path('counts'),
    body: () => ({ good: 1 }),
    allowed: 'welder',
    refused: 'office',
    malformed: { body: { good: 1.5 }, field: 'body.good' },
  });
  firstFour('stop', atBooth, {
    method: 'post',
    path: path('stops'),
    body: () => ({ cause: 'fault' }),
    allowed: 'welder',
    refused: 'office',
    malformed: { body: { cause: 'tea' }, field: 'body.cause' },
  });
  firstFour('read', atBooth, {
    method: 'post',
    path: path('readings'),
    body: () => ({ currentA: 240 }),
    allowed: 'welder',
    refused: 'office',
    malformed: { body: { currentA: '240' }, field: 'body.currentA' },
  });
  firstFour('hand over', atBooth, {
    method: 'post',
    path: path('hand-over'),
    body: () => ({ toPersonId: shop.people.qa.id, note: 'four are tacked' }),
    allowed: 'coordinator',
    refused: 'office',
    malformed: { body: { toPersonId: 'O03', note: 'four are tacked' }, field: 'body.toPersonId' },
  });
  firstFour('note', atBooth, {
    method: 'post',
    path: path('notes'),
    body: () => ({ text: 'Clamp 2 sits loose.' }),
    allowed: 'welder',
    refused: 'office',
    malformed: { body: { text: '' }, field: 'body.text' },
  });
  firstFour('put down', atBooth, {
    method: 'post',
    path: path('put-down'),
    body: () => ({}),
    allowed: 'welder',
    refused: 'office',
    malformed: { body: { setUpMin: -1 }, field: 'body.setUpMin' },
  });
});

describe('doors of a free cell and of a stop', () => {
  let job: Job;
  let run: Run;
  beforeEach(async () => {
    job = await boothJob();
    const welder = await signIn('W07');
    run = await pulled(job, welder, 'M1');
    await act(run, 'stops', { cause: 'fault' }, welder);
  });
  firstFour('resume', () => shop, {
    method: 'post',
    path: () => `/api/runs/${run.id}/resume`,
    body: () => ({}),
    allowed: 'welder',
    refused: 'office',
    malformed: { body: { happenedAt: 'noon' }, field: 'body.happenedAt' },
  });
});

describe('door of the pull', () => {
  let job: Job;
  beforeEach(async () => {
    job = await boothJob();
  });
  firstFour('pull', () => shop, {
    method: 'post',
    path: () => `/api/cells/${shop.cells.M1.id}/pull`,
    body: () => ({ jobStepId: first(job) }),
    allowed: 'welder',
    refused: 'office',
    malformed: { body: { jobStepId: 7 }, field: 'body.jobStepId' },
  });
});

describe('pull', () => {
  it('gives the step to one person, with the card, and sets the job going', async () => {
    const job = await robot.job({ quantity: 12 });
    const answer = await pull(first(job));
    expect(answer.status, answer.body.message).toBe(200);
    const { run, card } = answer.body;
    expect(run).toMatchObject({
      ...{ version: 1, jobNumber: job.number, cellCode: 'R1', personCode: 'O03', quantity: 12 },
      ...{ wpsLabel: 'WPS-014 r1', startedAt: monday, endedAt: null, goodCount: 0, arcS: 0 },
    });
    expect(card.step).toMatchObject({ state: 'held', version: 2, holder: { runId: run.id } });
    expect((await operator.get(`/api/runs/${run.id}`)).body).toEqual(run);
    const now = await jobNow(job);
    expect([now.state, now.steps[0]?.holder]).toEqual(['running', 'Orla Winterbeck']);
  });

  it('takes the first ready step when none is named, and passes over what is not ready', async () => {
    await putAside();
    const kit = await robot.job();
    const good = await robot.job();
    await office
      .post(`/api/job-steps/${first(kit)}/kit`)
      .send({ complete: false })
      .expect(200);
    const answer = await pull(null);
    expect(answer.status, answer.body.message).toBe(200);
    expect(answer.body.run.jobStepId).toBe(first(good));
  });

  it('says why when nothing is ready', async () => {
    await putAside();
    const kit = await robot.job();
    await office
      .post(`/api/job-steps/${first(kit)}/kit`)
      .send({ complete: false })
      .expect(200);
    const answer = await pull(null);
    expect([answer.status, answer.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(answer.body.message).toContain(`Job ${kit.number}: The kit is not complete`);
  });

  it('names the holder and since when to whoever comes second, with the next step', async () => {
    await putAside();
    const job = await robot.job();
    const next = await robot.job();
    shop.clock.set('2026-10-05T08:42:07.000Z');
    await pulled(job);
    const other = await robot.addPerson('O04', 'Odd Hallgrim');
    await certifyOperator(shop, other, { cellId: shop.cells.R1.id, confirmedOn: '2026-09-01' });
    const answer = await pull(first(job), await signIn('O04'));
    expect([answer.status, answer.body.code]).toEqual([409, 'TAKEN']);
    // 08:42:07 in UTC is 10:42:07 on the wall of the shop.
    expect(answer.body.message).toContain('was taken by O03 Orla Winterbeck at 10:42:07');
    expect(answer.body.current.holder).toMatchObject({ personCode: 'O03' });
    expect(answer.body.current.next.step.id).toBe(first(next));
  });

  it('lets a cell hold one step only, and names it', async () => {
    const [one, two] = [await robot.job(), await robot.job()];
    await pulled(one);
    for (const answer of [await pull(first(two)), await pull(null)]) {
      expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
      expect(answer.body.message).toContain(`R1 already holds job ${one.number}`);
    }
  });

  it('refuses a step of another queue, a blocked one and one that is not there', async () => {
    const job = await robot.job({
      steps: [
        { ...boothStep, name: 'Tack' },
        { ...robotStep, number: 2 },
      ],
      welds: [{ ...bracketWeld, stepNumber: 2 }],
    });
    const [tack, weld] = job.steps;
    const elsewhere = await pull(tack?.id ?? '');
    expect(elsewhere.body.code).toBe('NOT_NOW');
    expect(elsewhere.body.message).toContain('stands in the run queue of M1');
    const blocked = await pull(weld?.id ?? '');
    expect(blocked.body.code).toBe('NOT_NOW');
    expect(blocked.body.message).toContain('waits for the step before it');
    expect((await pull(unknownId)).body.code).toBe('NOT_FOUND');
  });

  it('refuses what does not fit, with the answer and its reasons', async () => {
    const thick = { ...bracketWeld, thicknessAMm: 15, thicknessBMm: 15 };
    const answer = await pull(first(await robot.job({ welds: [thick] })));
    expect([answer.status, answer.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(answer.body.message).toContain('weld 1: thickness 15 mm is above 12.');
    expect(answer.body.current.fit.result).toBe('outside');
    const { ready } = answer.body.current;
    expect(ready.find(({ rule }: { rule: string }) => rule === 'thickness').strength).toBe('gate');
  });

  it('stops a person without certificate for this cell; an override lets that person pass', async () => {
    const job = await robot.job();
    const welder = await signIn('W07');
    const refused = await pull(first(job), welder);
    expect(refused.body.code).toBe('DOES_NOT_FIT');
    expect(refused.body.message).toContain("no operator's certificate for R1");
    await coordinator
      .post(`/api/job-steps/${first(job)}/overrides`)
      .send({
        ...{ rule: 'person', forPersonId: shop.people.welder.id, days: 1 },
        reason: 'trained on this cell, paper follows tomorrow',
      })
      .expect(200);
    const manager = await shop.as('manager');
    expect((await pull(first(job), manager)).body.code).toBe('DOES_NOT_FIT');
    const answer = await pull(first(job), welder);
    expect(answer.status, answer.body.message).toBe(200);
    const line = answer.body.card.ready.find(({ rule }: { rule: string }) => rule === 'person');
    expect(line).toMatchObject({ strength: 'gate', overriddenBy: 'C01' });
  });

  it('lets no override pass a refusal, nor an override that has run out', async () => {
    const welds = [{ ...bracketWeld, thicknessAMm: 15, thicknessBMm: 15 }];
    const job = await robot.job({ welds });
    await coordinator
      .post(`/api/job-steps/${first(job)}/overrides`)
      .send({
        ...{ rule: 'thickness', forPersonId: robot.operator.id, days: 1 },
        reason: 'test piece of 15 mm was sound, record follows',
      })
      .expect(200);
    const run = await pulled(job);
    expect((await act(run, 'put-down')).status).toBe(200);
    shop.clock.set('2026-10-06T05:00:01.000Z');
    operator = await signIn('O03');
    coordinator = await shop.as('coordinator');
    office = await shop.as('office');
    expect((await pull(first(job))).body.code).toBe('DOES_NOT_FIT');
  });

  it('gives the first answer to a command that is sent again', async () => {
    const job = await robot.job();
    const send = async () =>
      operator
        .post(`/api/cells/${shop.cells.R1.id}/pull`)
        .set('Idempotency-Key', 'pull-once-0001')
        .send({ jobStepId: first(job) });
    const [one, two] = [await send(), await send()];
    expect([one.status, two.status]).toEqual([200, 200]);
    expect(two.body).toEqual(one.body);
  });

  async function putAside(): Promise<void> {
    const view = await office.get(`/api/cells/${shop.cells.R1.id}/view`);
    for (const { id, jobId } of view.body.lane.steps) {
      const { version } = (await office.get(`/api/jobs/${jobId}`)).body;
      const cancelled = await office
        .post(`/api/jobs/${jobId}/cancel`)
        .send({ reason: 'made room for the next check', expectedVersion: version });
      expect(cancelled.status, `${id}: ${cancelled.body.message}`).toBe(200);
    }
  }
});

describe('hand over', () => {
  it('gives the step on in a new run, without a moment in between', async () => {
    const job = await robot.job();
    const run = await pulled(job);
    const other = await robot.addPerson('O06', 'Oda Brunnvik');
    await certifyOperator(shop, other, { cellId: shop.cells.R1.id, confirmedOn: '2026-09-01' });
    await passFirstPiece(operator, run.id);
    await act(run, 'counts', { good: 4 });
    const answer = await act(run, 'hand-over', { toPersonId: other.id, note: 'part 4 of 12' });
    expect(answer.status, answer.body.message).toBe(200);
    expect(answer.body.run).toMatchObject({ personCode: 'O06', goodCount: 0, stepGoodCount: 4 });
    expect(answer.body.card.step.holder).toMatchObject({ personCode: 'O06' });
    const before: Run = (await operator.get(`/api/runs/${run.id}`)).body;
    expect(before).toMatchObject({ goodCount: 4, endedAt: monday, handOverNote: 'part 4 of 12' });
    const late = await act(run, 'counts', { good: 1 });
    expect([late.body.code, late.body.message]).toEqual([
      'NOT_NOW',
      expect.stringContaining('O06 holds the step now'),
    ]);
    const list = await operator.get(`/api/jobs/${job.id}/runs`);
    expect(list.body.runs.map(({ personCode }: Run) => personCode)).toEqual(['O03', 'O06']);
  });

  it('refuses somebody who is not qualified, the holder, and the office', async () => {
    const run = await pulled(await robot.job());
    const to = async (toPersonId: string) =>
      act(run, 'hand-over', { toPersonId, note: 'take over please' });
    const welder = await to(shop.people.welder.id);
    expect(welder.body.code).toBe('DOES_NOT_FIT');
    expect(welder.body.message).toContain('Not handed over. W07 Wanda Kestelholm: no');
    expect((await to(robot.operator.id)).body.message).toContain('holds this step already');
    expect((await to(shop.people.office.id)).body.message).toContain('Choose somebody who welds');
    expect((await to(unknownId)).body.code).toBe('NOT_FOUND');
  });
});
