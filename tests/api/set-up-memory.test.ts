import type { Job, Run, SetUpMemory, ToolPoint } from '@tackboard/contract';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { passFirstPiece, putDown } from '../support/make-batch.js';
import { monday, startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { robotShop, type RobotShop } from '../support/robot-shop.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let robot: RobotShop;
let operator: Agent;
let office: Agent;
let coordinator: Agent;
let job: Job;
let run: Run;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  office = await shop.as('office');
  coordinator = await shop.as('coordinator');
  operator = shop.stranger();
  await operator.post('/api/session').send({ code: 'O03', password: testPassword }).expect(200);
});
beforeEach(async () => {
  shop.clock.set(monday);
  await putDownAll();
  job = await robot.job({ quantity: 3 });
  run = await pulled(job);
});
afterAll(async () => shop.close());

const later = (ms: number) =>
  shop.clock.set(new Date(shop.clock.now().getTime() + ms).toISOString());
const first = ({ steps: [step] }: Job) => step?.id ?? '';
async function pulled(of: Job): Promise<Run> {
  const path = `/api/cells/${shop.cells.R1.id}/pull`;
  const answer = await operator.post(path).send({ jobStepId: first(of) });
  expect(answer.status, answer.body.message).toBe(200);
  await passFirstPiece(operator, answer.body.run.id);
  return answer.body.run;
}
async function putDownAll(): Promise<void> {
  const view = await office.get(`/api/cells/${shop.cells.R1.id}/view`);
  const runId = view.body.held?.step.holder?.runId;
  if (runId !== undefined) await putDown(coordinator, runId);
}
const act = async (what: string, body: object, agent = operator) =>
  agent.post(`/api/runs/${run.id}/${what}`).send(body);
const atCell = async (what: string, body: object, agent = operator) =>
  agent.post(`/api/cells/${shop.cells.R1.id}/${what}`).send(body);
const change = async (variable: string, to: number, why = 'leg too small') =>
  act('changes', { variable, to, why });
const memory = async (of = job): Promise<SetUpMemory> =>
  (await office.get(`/api/job-steps/${first(of)}/memory`).expect(200)).body;
const card = async (of = job) =>
  (await operator.get(`/api/job-steps/${first(of)}/card`).expect(200)).body;
/** Another batch of the same revision. */
async function returned(of: Job): Promise<Job> {
  const { jobs } = (await office.get(`/api/orders/${of.orderId}`).expect(200)).body;
  const order = (await office.get(`/api/orders/${of.orderId}`)).body;
  const line = {
    ...{ partId: jobs[0].partId, orderedRevision: 'B', quantity: 3, dueOn: '2026-10-09' },
    ...{ pastDueReason: null, drawingPrint: null, quantityConfirmed: true, cells: [] },
  };
  const body = {
    customerId: order.customerId,
    customerOrder: '4712',
    entryMs: 1000,
    lines: [line],
  };
  return (await office.post('/api/orders').send(body).expect(200)).body.jobs[0];
}

describe('doors', () => {
  const doors = () => shop;
  const path = (what: string) => () => `/api/runs/${run.id}/${what}`;
  const cell = (what: string) => () => `/api/cells/${shop.cells.R1.id}/${what}`;
  firstFour('memory', doors, {
    method: 'get',
    path: () => `/api/job-steps/${first(job)}/memory`,
    allowed: 'office',
    malformed: { path: '/api/job-steps/4/memory', field: 'params.jobStepId' },
  });
  firstFour('tool point', doors, {
    method: 'get',
    path: cell('tool-point'),
    allowed: 'office',
    malformed: { path: '/api/cells/R1/tool-point', field: 'params.cellId' },
  });
  it.each([
    ['changes', { variable: 'voltageV', to: 26, why: 'less spatter' }, { to: 'x' }, 'body.to'],
    ['program', { revision: '4' }, { revision: '' }, 'body.revision'],
    ['close-out', {}, { watchOuts: ['a', 'b', 'c', 'd'] }, 'body.watchOuts'],
  ])('%s: the four doors', async (what, body, bad, field) => {
    const send = async (agent: Agent, given: object) => agent.post(path(what)()).send(given);
    expect((await send(shop.stranger(), body)).status).toBe(401);
    expect((await send(office, body)).body.code).toBe('NOT_ALLOWED');
    const malformed = await send(operator, { ...body, ...bad });
    expect([malformed.status, malformed.body.fields[0].field]).toEqual([400, field]);
    expect((await send(operator, body)).status).toBe(200);
    const none = await operator.post(`/api/runs/${unknownId}/${what}`).send(body);
    expect(none.status).toBe(404);
  });
  it.each([
    ['knocks', { note: 'clamp' }, { note: 4 }, 'body.note'],
    ['tool-point-checks', { good: true }, { good: 'yes' }, 'body.good'],
  ])('%s: the four doors', async (what, body, bad, field) => {
    expect((await atCell(what, body, shop.stranger())).status).toBe(401);
    expect((await atCell(what, body, office)).body.code).toBe('NOT_ALLOWED');
    const malformed = await atCell(what, { ...body, ...bad });
    expect([malformed.status, malformed.body.fields[0].field]).toEqual([400, field]);
    expect((await atCell(what, body)).status).toBe(200);
    const none = await operator.post(`/api/cells/${unknownId}/${what}`).send(body);
    expect(none.status).toBe(404);
    await atCell('tool-point-checks', { good: true });
  });
});

describe('a changed setting', () => {
  it('is kept from, to and why; inside the procedure but away from the set-up it is told', async () => {
    const answer = await change('wireSpeedMMin', 9.6);
    expect(answer.body.change).toMatchObject({
      ...{ variable: 'wireSpeedMMin', from: '9', to: '9.6', why: 'leg too small' },
      ...{ result: 'inside', afterPart: 0, personCode: 'O03' },
    });
    expect(answer.body.words.join(' ')).toContain('kept set-up has wire speed 9 m/min');
    later(1000);
    await change('wireSpeedMMin', 9.4, 'a little less');
    expect((await memory()).changed.map(({ from, to }) => [from, to])).toEqual([
      ['9', '9.6'],
      ['9.6', '9.4'],
    ]);
    const { entries } = (await office.get(`/api/history/run/${run.id}`).expect(200)).body;
    expect(entries[0]).toMatchObject({ type: 'run.changed', reason: 'a little less' });
  });

  it('outside stops good parts until it is set back; scrap can still be counted', async () => {
    await change('currentA', 280);
    later(1000);
    await change('voltageV', 28);
    later(1000);
    const outside = await change('travelMmMin', 300);
    expect(outside.body.change.result).toBe('outside');
    expect(outside.body.words[0]).toContain('heat input 1.254 kJ/mm is above 0.95');
    expect((await card()).ready).toContainEqual(
      expect.objectContaining({ rule: 'settings', strength: 'gate' }),
    );
    const good = await act('counts', { good: 1 });
    expect([good.status, good.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect((await act('counts', { scrap: 1 })).status).toBe(200);
    later(1000);
    // 280 A, 28 V, 450 mm/min: 0.836 kJ/mm.
    expect((await change('travelMmMin', 450)).body.change.result).toBe('inside');
    expect((await act('counts', { good: 1 })).status).toBe(200);
  });

  it('outside counts on once the coordinator has signed for the holder', async () => {
    await change('travelMmMin', 620);
    expect((await act('counts', { good: 1 })).status).toBe(409);
    const override = {
      ...{ rule: 'settings', reason: 'trial of a faster travel, tested', days: 1 },
      forPersonId: robot.operator.id,
    };
    await coordinator
      .post(`/api/job-steps/${first(job)}/overrides`)
      .send(override)
      .expect(200);
    expect((await act('counts', { good: 1 })).status).toBe(200);
  });

  it('a part that was made before the change counts, whenever it is told', async () => {
    later(60_000);
    const made = shop.clock.now().toISOString();
    later(60_000);
    await change('travelMmMin', 300);
    expect((await act('counts', { good: 1, happenedAt: made })).status).toBe(200);
  });
});

describe('the program revision', () => {
  it('that is not the kept one needs a note at the start, and is a change with its why', async () => {
    expect((await act('program', { revision: '4' })).status).toBe(200);
    expect((await memory()).programAtStart).toBe('4');
    const silent = await act('close-out', { programRevision: '5' });
    expect([silent.status, silent.body.code]).toEqual([422, 'NEEDS_REASON']);
    expect(silent.body.fields[0].field).toBe('body.programNote');
    const noted = { programRevision: '5', programNote: 'corner slowed down' };
    expect((await act('close-out', noted)).status).toBe(200);
    const { changed, programAtClose, closedOut } = await memory();
    expect({ programAtClose, closedOut }).toEqual({ programAtClose: '5', closedOut: true });
    expect(changed).toMatchObject([
      { variable: 'programRevision', from: '4', to: '5', why: 'corner slowed down' },
    ]);
  });
});

describe('a good run', () => {
  it('freezes its set-up; the next return starts from it and shows what changed and differs', async () => {
    await change('wireSpeedMMin', 9.6);
    await change('contactTipMm', 18, 'neck changed');
    await act('counts', { good: 3 }).then(({ status }) => expect(status).toBe(200));
    const close = {
      ...{ programRevision: '4', watchOuts: ['leg grows at the corner', 'clamp 2 first'] },
      fixture: { place: 'C1-2', condition: 'good' },
    };
    expect((await act('close-out', close)).status).toBe(200);
    await act('put-down', {}).then(({ status }) => expect(status).toBe(200));
    const next = await returned(job);
    const { setUp } = await card(next);
    expect(setUp).toMatchObject({
      ...{ wireSpeedMMin: 9.6, contactTipMm: 18, voltageV: 26.5, programRevision: '4' },
      ...{ watchOuts: close.watchOuts, fixturePlace: 'C1-2', frozenFromRunId: run.id },
    });
    const kept = await memory(next);
    expect(kept.lastGood).toMatchObject({ jobNumber: job.number, quantity: 3 });
    expect(kept.changedThen.map(({ variable, why }) => [variable, why])).toEqual([
      ['wireSpeedMMin', 'leg too small'],
      ['contactTipMm', 'neck changed'],
    ]);
    expect(kept.differs).toEqual([]);
    expect(kept.changed).toEqual([]);
  });

  it('is the first one of a step that began without a set-up', async () => {
    await putDownAll();
    const fresh = await robot.job({ quantity: 1, setUp: null });
    expect((await card(fresh)).setUp).toBeNull();
    run = await pulled(fresh);
    await act('readings', { currentA: 250, travelMmMin: 500 });
    await change('wireSpeedMMin', 9.2, 'first settings');
    await act('counts', { good: 1 }).then(({ status }) => expect(status).toBe(200));
    await act('put-down', {}).then(({ status }) => expect(status).toBe(200));
    const { setUp } = await card(await returned(fresh));
    expect(setUp).toMatchObject({
      ...{ cellCode: 'R1', wireSpeedMMin: 9.2, currentA: 250, travelMmMin: 500, voltageV: null },
      ...{ wireItemId: robot.wireItemId, gasItemId: robot.gasItemId, programName: null },
      frozenFromRunId: run.id,
    });
  });

  it('is not put down before its program was read', async () => {
    await act('counts', { good: 3 });
    expect((await act('put-down', {})).body.code).toBe('NEEDS_REASON');
    await act('close-out', { programRevision: '4' });
    expect((await act('put-down', {})).status).toBe(200);
    expect((await memory(await returned(job))).differs).toEqual([]);
  });

  it('a batch that ends short or outside the procedure leaves the set-up as it was', async () => {
    const before = (await card()).setUp;
    await act('counts', { good: 2 });
    await putDown(operator, run.id, { batchComplete: true });
    expect((await card(await returned(job))).setUp).toEqual(before);
  });

  it('with a program revision that is not on file stops the next pull until it is backed up', async () => {
    await act('close-out', { programRevision: '5', programNote: 'corner slowed down' });
    await act('counts', { good: 3 });
    await act('put-down', {});
    const next = await returned(job);
    expect((await card(next)).ready).toContainEqual(
      expect.objectContaining({ rule: 'program', strength: 'gate' }),
    );
    expect((await memory(next)).differs.join(' ')).toContain('on file is 4');
  });
});

describe('a knock', () => {
  const toolPoint = async (): Promise<ToolPoint> =>
    (await operator.get(`/api/cells/${shop.cells.R1.id}/tool-point`).expect(200)).body;

  let hour = 12;
  // Each test an hour after the one before: what counts is what was last known at this robot.
  beforeEach(() => shop.clock.set(`2026-10-05T${(hour += 1)}:00:00.000Z`));

  it('asks for a good check before the next good part, and lists the parts since the last one', async () => {
    await atCell('tool-point-checks', { good: true });
    later(60_000);
    await act('counts', { good: 2 });
    later(60_000);
    const knocked: ToolPoint = (await atCell('knocks', { note: 'ran into the clamp' })).body;
    expect(knocked).toMatchObject({ open: true, knock: { personCode: 'O03' } });
    expect(knocked.partsSince).toMatchObject([{ jobNumber: job.number, good: 2, scrap: 0 }]);
    const refused = await act('counts', { good: 1 });
    expect([refused.status, refused.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect((await act('counts', { rework: 1 })).status).toBe(200);
    await atCell('tool-point-checks', { good: false, note: '1.5 mm off' });
    expect((await act('counts', { good: 1 })).status).toBe(409);
    later(60_000);
    await atCell('tool-point-checks', { good: true });
    expect(await toolPoint()).toMatchObject({ open: false, partsSince: [] });
    expect((await act('counts', { good: 1 })).status).toBe(200);
  });

  it('refuses the pull as well, without a way round', async () => {
    await act('put-down', {});
    await atCell('knocks', {});
    const pull = await atCell('pull', { jobStepId: first(job) });
    expect([pull.status, pull.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(pull.body.message).toContain('tool point of R1');
    await atCell('tool-point-checks', { good: true });
  });

  it('is nothing that a booth can have', async () => {
    const answer = await operator.post(`/api/cells/${shop.cells.M1.id}/knocks`).send({});
    expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
  });
});
