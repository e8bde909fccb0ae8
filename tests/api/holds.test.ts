import type { ContainedWork, InspectionPoint, Job, JobHold } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { monday, startTestShop, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { signFirstPiece } from '../support/make-batch.js';
import { openQualityFloor, type QualityFloor } from '../support/quality-floor.js';
import { boothStep } from '../support/repeat-part.js';
import { bracketWeld, certifyWelder, robotStep } from '../support/robot-shop.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
const reason = 'wire lot L-78 suspected of moisture';
let shop: TestShop;
let floor: QualityFloor;

beforeAll(async () => {
  shop = await startTestShop();
  floor = await openQualityFloor(shop);
  await certifyWelder(shop, shop.people.welder);
});
afterAll(async () => shop.close());

const at = (minutes: number) =>
  shop.clock.set(new Date(Date.parse(monday) + minutes * 60_000).toISOString());
const span = { from: '2026-10-05', to: '2026-10-05' };
async function find(by: object): Promise<{ work: ContainedWork[]; openJobs: number }> {
  return floor.done(floor.qa.get('/api/containment').query({ ...span, ...by }));
}
/** Pulls the only step, counts, and puts it down. */
async function make(job: Job, good: number): Promise<void> {
  const run = await floor.pulled(job);
  await signFirstPiece(shop, floor.robot.by(floor.robot.operator), run.id);
  await floor.done(floor.act(run, 'counts', { good }));
  await floor.done(floor.act(run, 'put-down'));
}
async function newLot(number: string): Promise<string> {
  const { consumables } = shop.context.services;
  const manager = shop.actor('manager');
  const { wireItemId: itemId } = floor.robot;
  const lot = await consumables.addLot(manager, {
    ...{ itemId, number, receivedOn: '2026-09-01', certificate: null, receivedAmount: 90 },
  });
  return lot.id;
}
const load = async (lotId: string) =>
  shop.context.services.consumables.load(shop.actor('manager'), shop.cells.R1.id, {
    ...{ lotId, amount: 15 },
  });

describe('doors', () => {
  let hold: JobHold;
  let point: InspectionPoint;
  beforeAll(async () => {
    await make(await floor.robot.job(), 2);
    const inspected = { ...robotStep, holdPoint: true };
    await make(await floor.robot.job({ quantity: 1, steps: [inspected] }), 1);
    point = (
      await floor.done<{ points: [InspectionPoint] }>(floor.qa.get('/api/inspection-points'))
    ).points[0];
    const body = { ...span, cellId: shop.cells.R1.id, reason };
    const answer = floor.qa.post('/api/containment/quarantine').send(body);
    hold = (await floor.done<{ holds: [JobHold] }>(answer)).holds[0];
  });

  firstFour('containment', () => shop, {
    method: 'get',
    path: () => `/api/containment?from=2026-10-05&to=2026-10-05&cellId=${shop.cells.R1.id}`,
    allowed: 'office',
    refused: 'welder',
    malformed: { path: '/api/containment?from=2026-02-31&to=2026-10-05', field: 'query.from' },
  });
  firstFour('quarantine', () => shop, {
    method: 'post',
    path: () => '/api/containment/quarantine',
    body: () => ({ ...span, cellId: shop.cells.R1.id, reason }),
    allowed: 'qa',
    refused: 'office',
    malformed: { body: { ...span, cellId: 'R1', reason }, field: 'body.cellId' },
  });
  firstFour('holds', () => shop, {
    method: 'get',
    path: () => '/api/holds',
    allowed: 'office',
    malformed: { path: '/api/holds?jobId=7', field: 'query.jobId' },
  });
  firstFour('lift a hold', () => shop, {
    method: 'post',
    path: () => `/api/holds/${hold.id}/lift`,
    body: () => ({ reason: 'lot tested, it is dry', expectedVersion: hold.version }),
    allowed: 'qa',
    refused: 'office',
    malformed: { body: { reason: '', expectedVersion: 1 }, field: 'body.reason' },
  });
  firstFour('inspection points', () => shop, {
    method: 'get',
    path: () => '/api/inspection-points',
    allowed: 'welder',
    malformed: { path: '/api/inspection-points?jobId=7', field: 'query.jobId' },
  });
  firstFour('close a point', () => shop, {
    method: 'post',
    path: () => `/api/inspection-points/${point.id}/close`,
    body: () => ({ result: 'passed', expectedVersion: point.version }),
    allowed: 'qa',
    refused: 'welder',
    malformed: { body: { result: 'fine', expectedVersion: 1 }, field: 'body.result' },
  });

  it('refuses what is unknown, a question about nothing, and days in the wrong order', async () => {
    const lift = await floor.qa
      .post(`/api/holds/${unknownId}/lift`)
      .send({ reason, expectedVersion: 1 });
    const close = await floor.qa
      .post(`/api/inspection-points/${unknownId}/close`)
      .send({ result: 'passed', expectedVersion: 1 });
    expect([lift.status, close.status]).toEqual([404, 404]);
    const nothing = await floor.qa.get('/api/containment').query(span);
    expect([nothing.status, nothing.body.code]).toEqual([400, 'INVALID']);
    const back = { from: '2026-10-06', to: '2026-10-05', cellId: shop.cells.R1.id };
    expect((await floor.qa.get('/api/containment').query(back)).status).toBe(400);
    expect(
      (await floor.qa.get('/api/containment').query({ ...span, lotId: unknownId })).body,
    ).toEqual({ work: [], openJobs: 0 });
  });
});

describe('a wire lot that is suspected', () => {
  it('is found in every job it was welded into, also from part 8 of one, and all open ones are held', async () => {
    const lotId = await newLot('L-78');
    at(200);
    const before = await floor.robot.job();
    await make(before, 12);
    const mid = await floor.robot.job();
    const run = await floor.pulled(mid);
    await signFirstPiece(shop, floor.robot.by(floor.robot.operator), run.id);
    at(230);
    await floor.done(floor.act(run, 'counts', { good: 7 }));
    at(235);
    await load(lotId);
    at(255);
    await floor.done(floor.act(run, 'counts', { good: 5 }));
    await floor.done(floor.act(run, 'put-down'));
    const part = await floor.robot.job();
    await make(part, 3);
    at(280);
    await load(await newLot('L-79'));
    await make(await floor.robot.job(), 2);

    const { work, openJobs } = await find({ lotId });
    const line = ({
      jobNumber,
      jobState,
      fromPart,
      toPart,
      parts,
      customerName,
      cellCode,
    }: ContainedWork) => [
      ...[jobNumber, jobState, fromPart, toPart, parts, customerName, cellCode],
    ];
    expect(work.map(line)).toEqual([
      [part.number, 'running', 1, 3, 3, 'Nordhang Conveyors', 'R1'],
      [mid.number, 'done', 8, 12, 5, 'Nordhang Conveyors', 'R1'],
    ]);
    expect(work[1]).toMatchObject({ firstDay: '2026-10-05', personCodes: ['O03'], held: false });
    expect(openJobs).toBe(1);

    const held = await floor.qa
      .post('/api/containment/quarantine')
      .send({ ...span, lotId, reason });
    expect(held.body).toMatchObject({
      holds: [{ jobNumber: part.number, reason }],
      alreadyHeld: 0,
    });
    const again = await floor.qa
      .post('/api/containment/quarantine')
      .send({ ...span, lotId, reason });
    expect(again.body).toEqual({ holds: [], alreadyHeld: 1 });
    expect((await find({ lotId })).work[0]?.held).toBe(true);

    const step = part.steps[0];
    const pull = await floor.operator
      .post(`/api/cells/${step?.cellId}/pull`)
      .send({ jobStepId: step?.id });
    expect([pull.status, pull.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(pull.body.message).toContain(`Job ${part.number} is in quarantine: ${reason}`);
    expect((await floor.jobNow(part)).openHolds).toEqual([reason]);

    const [hold] = (held.body as { holds: [JobHold] }).holds;
    const lift = async (expectedVersion: number) =>
      floor.qa.post(`/api/holds/${hold.id}/lift`).send({ reason: 'tested dry', expectedVersion });
    expect((await lift(1)).body.liftedBy).toBe('Quenna Harrowind');
    expect([(await lift(1)).body.code, (await lift(2)).body.code]).toEqual(['STALE', 'NOT_NOW']);
    await floor.done(floor.pulled(part).then(async (run) => floor.act(run, 'put-down')));
  });

  it('is answered by person, procedure, program and cell too, and by none on another day', async () => {
    const job = await floor.robot.job();
    await make(job, 2);
    const { programId, operator } = floor.robot;
    const named = async (by: object) =>
      (await find(by)).work.map(({ jobNumber }) => jobNumber).includes(job.number);
    expect(await named({ programId })).toBe(true);
    expect(await named({ personId: operator.id })).toBe(true);
    expect(await named({ personId: shop.people.welder.id })).toBe(false);
    expect(await named({ cellId: shop.cells.R1.id })).toBe(true);
    expect(await named({ cellId: shop.cells.M1.id })).toBe(false);
    const other = { from: '2026-10-06', to: '2026-10-07', cellId: shop.cells.R1.id };
    const { work } = await floor.done<{ work: ContainedWork[] }>(
      floor.qa.get('/api/containment').query(other),
    );
    expect(work).toEqual([]);
    const none = await floor.qa
      .post('/api/containment/quarantine')
      .send({ ...span, cellId: shop.cells.M1.id, reason });
    expect([none.status, none.body.code]).toEqual([409, 'NOT_NOW']);
  });
});

describe('points after a step', () => {
  const twoSteps = (tack: object) => ({
    quantity: 2,
    steps: [
      { ...boothStep, name: 'Tack', ...tack },
      { ...robotStep, number: 2 },
    ],
    welds: [{ ...bracketWeld, stepNumber: 2 }],
  });
  async function tacked(tack: object): Promise<{ job: Job; point: InspectionPoint }> {
    const job = await floor.robot.job(twoSteps(tack));
    const welder = await shop.as('welder');
    const run = await floor.pulled(job, 0, welder);
    await signFirstPiece(shop, floor.robot.by(shop.people.welder), run.id);
    await floor.done(floor.act(run, 'counts', { good: 2 }, welder));
    await floor.done(floor.act(run, 'put-down', {}, welder));
    const { points } = await floor.done<{ points: [InspectionPoint] }>(
      floor.qa.get(`/api/inspection-points?jobId=${job.id}`),
    );
    return { job, point: points[0] };
  }
  const pull = async (job: Job) =>
    floor.operator
      .post(`/api/cells/${shop.cells.R1.id}/pull`)
      .send({ jobStepId: job.steps[1]?.id });
  const close = async ({ id }: InspectionPoint, body: object) =>
    floor.qa.post(`/api/inspection-points/${id}/close`).send({ expectedVersion: 1, ...body });

  it('a hold point keeps the next step until QA passes it, and is waived with a reason only', async () => {
    const { job, point } = await tacked({ holdPoint: true });
    expect(point).toMatchObject({ kind: 'hold', dueAt: null, stepNumber: 1, result: null });
    const refused = await pull(job);
    expect(refused.body.message).toContain('The hold point after step 1 waits for QA');
    expect((await floor.jobNow(job)).openHolds).toHaveLength(1);
    const silent = await close(point, { result: 'waived' });
    expect([silent.status, silent.body.code]).toEqual([422, 'NEEDS_REASON']);
    const passed = await close(point, { result: 'passed' });
    expect(passed.body).toMatchObject({ result: 'passed', closedBy: 'Quenna Harrowind' });
    expect((await close(point, { result: 'passed' })).body.code).toBe('STALE');
    const run = (await pull(job)).body.run;
    await floor.done(floor.act(run, 'put-down'));
  });

  it('a hold point after the last step keeps the job from being done', async () => {
    const job = await floor.robot.job({ quantity: 1, steps: [{ ...robotStep, holdPoint: true }] });
    await make(job, 1);
    expect((await floor.jobNow(job)).state).toBe('running');
    const { points } = await floor.done<{ points: [InspectionPoint] }>(
      floor.qa.get(`/api/inspection-points?jobId=${job.id}`),
    );
    await floor.done(
      close(points[0], { result: 'waived', note: 'customer has released it by letter' }),
    );
    expect((await floor.jobNow(job)).state).toBe('done');
  });

  it('a hold point is opened too for a step that nobody put down as done before its job is closed short', async () => {
    const office = await shop.as('office');
    const job = await floor.robot.job({ quantity: 3, steps: [{ ...robotStep, holdPoint: true }] });
    await make(job, 2);
    const { version } = await floor.jobNow(job);
    const short = { expectedVersion: version, reason: 'customer takes what is made' };
    await floor.done(office.post(`/api/jobs/${job.id}/close-short`).send(short));
    expect(await floor.jobNow(job)).toMatchObject({
      ...{ state: 'running', steps: [{ state: 'done', goodCount: 2 }] },
      openHolds: ['The hold point after step 1 waits for QA'],
    });
    const { points } = await floor.done<{ points: [InspectionPoint] }>(
      floor.qa.get(`/api/inspection-points?jobId=${job.id}`),
    );
    expect(points).toMatchObject([{ kind: 'hold', result: null, jobNumber: job.number }]);
    await floor.done(close(points[0], { result: 'passed' }));
    expect(await floor.jobNow(job)).toMatchObject({ state: 'closedShort', openHolds: [] });
  });

  it('a witness point waits its time, then the work goes on and the record says so', async () => {
    at(400);
    const { job, point } = await tacked({ witnessMin: 60 });
    expect(point).toMatchObject({ kind: 'witness', dueAt: '2026-10-05T12:40:00.000Z' });
    expect((await pull(job)).body.message).toContain('has 60 more minutes to come');
    at(459);
    expect(await shop.context.services.quality.endWitnessPoints()).toBe(0);
    expect((await pull(job)).body.message).toContain('has 1 more minutes to come');
    at(461);
    const run = (await pull(job)).body.run;
    expect(run.id).toBeDefined();
    expect(await shop.context.services.quality.endWitnessPoints()).toBe(1);
    const { points } = await floor.done<{ points: InspectionPoint[] }>(
      floor.qa.get(`/api/inspection-points?jobId=${job.id}`),
    );
    expect(points[0]).toMatchObject({ result: 'timedOut', closedBy: null, closedAt: point.dueAt });
    const { entries } = (await floor.qa.get(`/api/history/inspectionPoint/${point.id}`)).body;
    expect(entries.map(({ type }: { type: string }) => type)).toEqual([
      ...['inspectionPoint.timedOut', 'inspectionPoint.opened'],
    ]);
    expect((await close(point, { result: 'passed', expectedVersion: 2 })).body.code).toBe(
      'NOT_NOW',
    );
    await floor.done(floor.act(run, 'put-down'));
  });
});
