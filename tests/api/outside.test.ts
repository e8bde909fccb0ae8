import type { Job, Lane, OutsideTrip } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { openBracketShop, type BracketShop } from '../support/bracket-shop.js';
import { firstFour } from '../support/first-four.js';
import { unknownId } from '../support/guarded.js';
import { finishRun } from '../support/make-batch.js';
import { addReleasedPart } from '../support/repeat-part.js';
import { certifyWelder } from '../support/robot-shop.js';

// The shop, its parts and its days are invented.
let shop: TestShop;
let desk: BracketShop;
let coated: string;

const work = 'Zinc coating to ISO 1461';

beforeAll(async () => {
  shop = await startTestShop();
  desk = await openBracketShop(shop);
  await certifyWelder(shop, shop.people.welder);
  coated = (await addReleasedPart(shop, { number: 'Z-1' })).id;
  const { version } = (await desk.office.get(`/api/parts/${coated}`)).body;
  const body = { outsideWork: work, outsideDays: 5, expectedVersion: version };
  await desk.office.patch(`/api/parts/${coated}`).send(body).expect(200);
});
afterAll(async () => shop.close());

const order = async () => desk.take(desk.customers.cedar, { partId: coated, dueOn: '2026-10-20' });
const jobOf = async (id: string): Promise<Job> => (await desk.office.get(`/api/jobs/${id}`)).body;

async function weld({ steps, quantity }: Job): Promise<void> {
  const welder = await shop.as('welder');
  const pull = `/api/cells/${shop.cells.M1.id}/pull`;
  const { body } = await welder.post(pull).send({ jobStepId: steps[0]?.id }).expect(200);
  await finishRun(welder, body.run.id, quantity);
}

const leaving = { work, toWhom: 'Pickle and Dip', sentOn: '2026-10-05', dueBackOn: '2026-10-12' };
const send = (id: string, changes = {}) =>
  desk.office.post(`/api/jobs/${id}/outside`).send({ ...leaving, ...changes });
const takeBack = ({ id, version }: OutsideTrip, changes = {}) =>
  desk.office
    .post(`/api/outside/${id}/back`)
    .send({ backOn: '2026-10-05', expectedVersion: version, ...changes });

async function sent(): Promise<{ job: Job; trip: OutsideTrip }> {
  const job = await order();
  await weld(job);
  const [trip] = (await send(job.id).expect(200)).body.trips;
  return { job, trip };
}

describe('work that others do after the last step', () => {
  it('puts its days between the finish and the promise, for a new order and for a job', async () => {
    const plain = await desk.check({ partId: coated, dueOn: '2026-10-20' });
    // 30 + 10 + 12 x 4 = 88 min of 360 on Monday; five days later is Saturday.
    expect(plain.cells).toMatchObject([{ plannedMin: 88, finishOn: '2026-10-05' }]);
    expect(plain.promise.text).toMatch(/^Sat 10 Oct 2026, .*, 5 days with others\./);
    const job = await order();
    expect(job.outside).toEqual({ work, days: 5, dueBackOn: null, open: true });
    const { promise } = (await desk.office.get(`/api/jobs/${job.id}/readiness`)).body;
    expect(promise.text).toMatch(/^Sat 10 Oct 2026/);
    await desk.cancel(job);
    // Welded on Monday in time for Friday, and not back before Saturday.
    const tight = await desk.take(desk.customers.cedar, { partId: coated, dueOn: '2026-10-09' });
    const { jobs } = (await desk.office.get('/api/late-jobs')).body;
    expect(jobs.map(({ number }: Job) => number)).toEqual([tight.number]);
    await desk.cancel(tight);
  });

  it('takes its days off the due day wherever welding is planned by it', async () => {
    const due = { partId: coated, dueOn: '2026-10-09' };
    const [place] = (await desk.check(due)).places;
    // Friday less five days with others is Sunday, at its end; the booth is done on Monday after 88 min of its shift.
    const finish = Date.parse(place?.finishAt ?? '') / 60_000;
    const sunday = Date.parse('2026-10-04T22:00:00Z') / 60_000;
    expect(place?.spareMin).toBeCloseTo(sunday - finish, 6);
    expect(place?.spareMin).toBeLessThan(0);
    const tight = await desk.take(desk.customers.cedar, due);
    const { lanes } = (await desk.office.get('/api/board')).body;
    const queued = lanes.flatMap(({ steps }: Lane) => steps);
    expect(queued).toMatchObject([
      { jobId: tight.id, dueOn: '2026-10-09', weldBy: '2026-10-04', late: true },
    ]);
    await desk.cancel(tight);
  });

  it('keeps the job open after the last weld, until it is back with its paper', async () => {
    const job = await order();
    const before = await send(job.id);
    expect([before.status, before.body.code]).toEqual([409, 'NOT_NOW']);
    expect(before.body.message).toContain('No step of job');
    await weld(job);
    const welded = await jobOf(job.id);
    expect(welded).toMatchObject({ state: 'running', finishedAt: null, outside: { open: true } });
    const [trip] = (await send(job.id).expect(200)).body.trips;
    expect(trip).toMatchObject({ ...leaving, backOn: null, sentBy: shop.people.office.name });
    expect((await jobOf(job.id)).outside).toMatchObject({ dueBackOn: '2026-10-12', open: true });
    const { promise } = (await desk.office.get(`/api/jobs/${job.id}/readiness`)).body;
    expect(promise.text).toMatch(/^Tue 13 Oct 2026.*back from others by Mon 12 Oct 2026/);
    const twice = await send(job.id);
    expect([twice.status, twice.body.message]).toEqual([
      409,
      expect.stringContaining('is at Pickle and Dip'),
    ]);
    const paper = { backOn: '2026-10-05', certificate: 'ZC-417', note: 'two runs ground off' };
    const back = await takeBack(trip, paper);
    expect(back.body.trips).toMatchObject([{ ...paper, version: 2 }]);
    expect(await jobOf(job.id)).toMatchObject({ state: 'done', outside: { open: false } });
    const { entries } = (await desk.office.get(`/api/history/job/${job.id}`)).body;
    expect(entries.map(({ type }: { type: string }) => type)).toEqual(
      expect.arrayContaining(['job.sentOut', 'job.backFromOutside', 'job.done']),
    );
  });

  it('refuses days that cannot be, and what is back already', async () => {
    const { job, trip } = await sent();
    const late = await send(job.id, { sentOn: '2026-10-06' });
    expect([late.status, late.body.fields[0].field]).toEqual([409, 'body.sentOn']);
    const turned = await send(job.id, { dueBackOn: '2026-10-04' });
    expect([turned.status, turned.body.fields[0].field]).toEqual([409, 'body.dueBackOn']);
    const early = await takeBack(trip, { backOn: '2026-10-04' });
    expect([early.status, early.body.fields[0].field]).toEqual([409, 'body.backOn']);
    expect(early.body.message).toContain('It left on Mon 5 Oct 2026');
    const stale = await takeBack({ ...trip, version: 7 });
    expect([stale.status, stale.body.current.toWhom]).toEqual([409, 'Pickle and Dip']);
    await takeBack(trip).expect(200);
    const again = await takeBack({ ...trip, version: 2 });
    expect([again.status, again.body.code]).toEqual([409, 'NOT_NOW']);
  });

  it('names what is not there', async () => {
    const answers = [
      await desk.office.get(`/api/jobs/${unknownId}/outside`),
      await send(unknownId),
      await takeBack({ id: unknownId, version: 1 } as OutsideTrip),
    ];
    expect(answers.map(({ status }) => status)).toEqual([404, 404, 404]);
  });
});

describe('doors', () => {
  let first: { job: Job; trip: OutsideTrip };
  let welded: Job;
  beforeAll(async () => {
    first = await sent();
    welded = await order();
    await weld(welded);
  });
  const doors = () => shop;

  firstFour('trips of a job', doors, {
    method: 'get',
    path: () => `/api/jobs/${first.job.id}/outside`,
    allowed: 'welder',
    malformed: { path: '/api/jobs/7/outside', field: 'params.jobId' },
  });
  firstFour('send a batch out', doors, {
    method: 'post',
    path: () => `/api/jobs/${welded.id}/outside`,
    body: () => leaving,
    allowed: 'office',
    refused: 'welder',
    malformed: { body: { ...leaving, sentOn: '31 Feb' }, field: 'body.sentOn' },
  });
  firstFour('take a batch back', doors, {
    method: 'post',
    path: () => `/api/outside/${first.trip.id}/back`,
    body: () => ({ backOn: '2026-10-05', expectedVersion: 1 }),
    allowed: 'qa',
    refused: 'welder',
    malformed: { body: { backOn: 'soon', expectedVersion: 1 }, field: 'body.backOn' },
  });
});
