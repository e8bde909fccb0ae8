import type { CellView, HistoryEntry, Job, JobReadiness } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { finishRun } from '../support/make-batch.js';
import { openOrderDesk, type OrderDesk } from '../support/order-desk.js';
import { boothStep, releaseRevision } from '../support/repeat-part.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
const reason = 'customer takes half of it first';

let shop: TestShop;
let desk: OrderDesk;

beforeAll(async () => {
  shop = await startTestShop();
  desk = await openOrderDesk(shop);
});
afterAll(async () => shop.close());

const send = async (job: Pick<Job, 'id'>, act: string, body: object) => {
  const { version } = await desk.jobNow(job.id);
  return desk.office
    .post(`/api/jobs/${job.id}/${act}`)
    .send({ reason, expectedVersion: version, ...body });
};
const history = async ({ id }: Pick<Job, 'id'>): Promise<HistoryEntry[]> =>
  (await desk.office.get(`/api/history/job/${id}`)).body.entries;
const newJob = async (options: object = {}): Promise<Job> =>
  desk.takeJob(desk.line((await desk.part(options)).id));

describe('doors', () => {
  let made: { split: Job; into: Job; from: Job; short: Job; changed: Job; seq: number };
  beforeAll(async () => {
    const { id } = await desk.part();
    const { jobs } = await desk.take(...Array.from({ length: 5 }, () => desk.line(id)));
    const [split, into, from, short, changed] = jobs as [Job, Job, Job, Job, Job];
    const run = await desk.pull(short);
    await desk.welder.post(`/api/runs/${run}/counts`).send({ good: 7 }).expect(200);
    await desk.welder.post(`/api/runs/${run}/put-down`).send({ batchComplete: false }).expect(200);
    await desk.office
      .patch(`/api/jobs/${changed.id}`)
      .send({ quantity: 14, reason, expectedVersion: 1 })
      .expect(200);
    const [event] = await history(changed);
    made = { split, into, from, short, changed, seq: event?.seq ?? 0 };
  });
  const doors = () => shop;
  const kept = { reason, expectedVersion: 1 };

  firstFour('readiness', doors, {
    method: 'get',
    path: () => `/api/jobs/${made.split.id}/readiness`,
    allowed: 'welder',
    malformed: { path: '/api/jobs/7/readiness', field: 'params.jobId' },
  });
  firstFour('late jobs', doors, {
    method: 'get',
    path: () => '/api/late-jobs',
    allowed: 'qa',
    refused: 'welder',
  });
  firstFour('acknowledge a change', doors, {
    method: 'post',
    path: () => `/api/jobs/${made.changed.id}/acknowledge-change`,
    body: () => ({ throughSeq: made.seq }),
    allowed: 'welder',
    refused: 'office',
    malformed: { body: { throughSeq: 0 }, field: 'body.throughSeq' },
  });
  firstFour('split', doors, {
    method: 'post',
    path: () => `/api/jobs/${made.split.id}/split`,
    body: () => ({ ...kept, quantity: 5 }),
    allowed: 'office',
    refused: 'welder',
    malformed: { body: { ...kept, quantity: 0 }, field: 'body.quantity' },
  });
  firstFour('merge', doors, {
    method: 'post',
    path: () => `/api/jobs/${made.into.id}/merge`,
    body: () => ({ ...kept, fromJobId: made.from.id }),
    allowed: 'office',
    refused: 'qa',
    malformed: { body: { ...kept, fromJobId: '12' }, field: 'body.fromJobId' },
  });
  it('close short: the version is asked', async () => {
    const answer = await desk.office
      .post(`/api/jobs/${made.short.id}/close-short`)
      .send({ reason, expectedVersion: 99 });
    expect([answer.status, answer.body.code]).toEqual([409, 'STALE']);
  });
  firstFour('close short', doors, {
    method: 'post',
    path: () => `/api/jobs/${made.short.id}/close-short`,
    body: () => ({ reason, expectedVersion: 2 }),
    allowed: 'manager',
    refused: 'welder',
    malformed: { body: { ...kept, reason: '' }, field: 'body.reason' },
  });
  it('closed short keeps what is counted and leaves the queue', async () => {
    const job = await desk.jobNow(made.short.id);
    expect(job).toMatchObject({ state: 'closedShort', quantity: 12 });
    expect(job.steps).toMatchObject([{ state: 'done', goodCount: 7 }]);
    expect((await history(job))[0]).toMatchObject({
      type: 'job.closedShort',
      reason,
      after: { goodCount: 7, quantity: 12 },
    });
  });
});

describe('a batch that is split and merged', () => {
  it('keeps the sum of its parts, its steps and its history', async () => {
    const job = await newJob();
    const answer = await send(job, 'split', { quantity: 5, dueOn: '2026-11-13' });
    expect(answer.status, answer.body.message).toBe(200);
    const { splitOff } = answer.body as { splitOff: Job };
    // 30 + 10 + 7 x 4 = 68 and 30 + 10 + 5 x 4 = 60 min
    expect(answer.body.job).toMatchObject({ quantity: 7, steps: [{ plannedMin: 68 }] });
    expect(splitOff).toMatchObject({
      ...{ quantity: 5, dueOn: '2026-11-13', orderId: job.orderId, released: true },
      steps: [{ state: 'waiting', plannedMin: 60, cellCode: 'M1' }],
    });
    expect((await history(job))[0]).toMatchObject({
      ...{ type: 'job.split', before: { quantity: 12 } },
      after: { quantity: 7, splitOff: splitOff.number, splitOffQuantity: 5 },
    });

    const merged = await send(job, 'merge', { fromJobId: splitOff.id });
    expect(merged.body).toMatchObject({ quantity: 12, steps: [{ plannedMin: 88 }] });
    expect(await desk.jobNow(splitOff.id)).toMatchObject({
      state: 'cancelled',
      steps: [{ state: 'cancelled' }],
    });
    expect((await history(splitOff)).map(({ type }) => type)).toEqual([
      ...['job.cancelled', 'job.taken'],
    ]);
    expect((await history(job)).map(({ type }) => type)).toEqual([
      ...['job.merged', 'job.split', 'job.taken'],
    ]);
  });

  it('leaves made parts in the batch that they were made in', async () => {
    const job = await newJob();
    const run = await desk.pull(job);
    await desk.welder.post(`/api/runs/${run}/counts`).send({ good: 8, scrap: 1 }).expect(200);
    const most = await send(job, 'split', { quantity: 4 });
    expect([most.status, most.body.fields[0]]).toMatchObject([
      409,
      { field: 'body.quantity', allowed: '1 to 3' },
    ]);
    const split = await send(job, 'split', { quantity: 3 });
    expect(split.body.job).toMatchObject({ quantity: 9, steps: [{ goodCount: 8, scrapCount: 1 }] });
    expect(split.body.splitOff.steps).toMatchObject([{ goodCount: 0, scrapCount: 0 }]);
    const held = await send(job, 'close-short', {});
    expect([held.status, held.body.message]).toEqual([
      409,
      expect.stringContaining('closed short once'),
    ]);
    await desk.welder.post(`/api/runs/${run}/put-down`).send({ batchComplete: false }).expect(200);
    expect((await send(job, 'close-short', {})).body).toMatchObject({ state: 'closedShort' });
  });

  it('refuses to mix orders, to take up begun work, and to close short what was never made', async () => {
    const { id } = await desk.part();
    const one = await desk.takeJob(desk.line(id));
    const other = await desk.takeJob(desk.line(id));
    const mixed = await send(one, 'merge', { fromJobId: other.id });
    expect([mixed.status, mixed.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect((await send(one, 'merge', { fromJobId: one.id })).body.code).toBe('DOES_NOT_FIT');
    expect((await send(one, 'merge', { fromJobId: unknownId })).status).toBe(404);
    const short = await send(one, 'close-short', {});
    expect(short.body.message).toContain('Cancel the job instead');
    const [into, begun] = (await desk.take(desk.line(id), desk.line(id))).jobs as [Job, Job];
    await finishRun(desk.welder, await desk.pull(begun), 12);
    expect((await send(into, 'merge', { fromJobId: begun.id })).body.code).toBe('NOT_NOW');
    expect((await send(begun, 'split', { quantity: 3 })).body.code).toBe('NOT_NOW');
  });

  it('cannot split off a whole batch, nor one whose first step is done', async () => {
    const job = await newJob({
      steps: [boothStep, { ...boothStep, number: 2, name: 'Finish' }],
    });
    const whole = await send(job, 'split', { quantity: 12 });
    expect(whole.body.fields[0]).toMatchObject({ allowed: '1 to 11' });
    await finishRun(desk.welder, await desk.pull(job), 12);
    const late = await send(job, 'split', { quantity: 3 });
    expect(late.body.message).toContain('Step 1 of job');
  });
});

describe('a change in flight', () => {
  const changesOf = async ({ id }: Job): Promise<JobReadiness['changes']> =>
    (await desk.office.get(`/api/jobs/${id}/readiness`)).body.changes;
  const atCell = async (): Promise<CellView> =>
    (await desk.welder.get(`/api/cells/${shop.cells.M1.id}/view`)).body;

  it('shows at the cell until it is acknowledged there', async () => {
    const job = await newJob();
    expect(await changesOf(job)).toEqual([]);
    const run = await desk.pull(job);
    shop.clock.set(new Date(shop.clock.now().getTime() + 60_000).toISOString());
    const edit = async (body: object) => {
      const { version } = await desk.jobNow(job.id);
      await desk.office
        .patch(`/api/jobs/${job.id}`)
        .send({ ...body, reason, expectedVersion: version })
        .expect(200);
    };
    await edit({ quantity: 10 });
    await edit({ dueOn: '2026-11-02' });
    const { changes: all, held } = await atCell();
    // The next job of the queue was split above.
    const changes = all.filter(({ jobId }) => jobId === job.id);
    expect(held?.step.jobId).toBe(job.id);
    expect(changes).toMatchObject([
      { text: 'quantity from 12 to 10', sincePull: true, by: 'Selma Brackwater', reason },
      { text: 'due date from 30 Oct 2026 to 2 Nov 2026', sincePull: true },
    ]);
    const acknowledge = async (throughSeq: number) =>
      desk.welder.post(`/api/jobs/${job.id}/acknowledge-change`).send({ throughSeq });
    const seen = await acknowledge(changes[0]?.seq ?? 0);
    expect(seen.body.changes).toMatchObject([{ text: expect.stringContaining('due date') }]);
    expect((await acknowledge(changes[1]?.seq ?? 0)).body.changes).toEqual([]);
    expect((await atCell()).changes.filter(({ jobId }) => jobId === job.id)).toEqual([]);
    expect(await changesOf(job)).toEqual([]);
    expect((await acknowledge(changes[1]?.seq ?? 0)).body.code).toBe('NOT_NOW');
    expect((await history(job))[0]).toMatchObject({
      ...{ type: 'job.changeAcknowledged', meaning: 'checked' },
      after: { seen: ['due date from 30 Oct 2026 to 2 Nov 2026'] },
    });
    await desk.welder.post(`/api/runs/${run}/put-down`).send({ batchComplete: false }).expect(200);
    await desk.office
      .post(`/api/jobs/${job.id}/cancel`)
      .send({ reason, expectedVersion: (await desk.jobNow(job.id)).version })
      .expect(200);
  });

  it('tells of another revision, and of no change where nothing moved', async () => {
    const { id } = await desk.part();
    const job = await desk.takeJob(desk.line(id, { orderedRevision: 'C' }));
    await releaseRevision(desk.office, id, { label: 'C' });
    await desk.coordinator
      .post(`/api/jobs/${job.id}/release`)
      .send({ changeNote: 'both drawings compared', expectedVersion: 1 })
      .expect(200);
    expect(await changesOf(job)).toMatchObject([
      { text: 'revision from B to C', sincePull: false },
    ]);
    const same = await desk.takeJob(desk.line(id, { orderedRevision: 'D' }));
    await desk.coordinator
      .post(`/api/jobs/${same.id}/release`)
      .send({ changeNote: 'D is C in other words', expectedVersion: 1 })
      .expect(200);
    expect(await changesOf(same)).toEqual([]);
  });
});

describe('what a job lacks', () => {
  it('says per line whether it is clear and who can clear it', async () => {
    const job = await newJob({ steps: [{ ...boothStep, wpsNumber: 'WPS-404' }] });
    const { steps, promise }: JobReadiness = (
      await desk.office.get(`/api/jobs/${job.id}/readiness`)
    ).body;
    const line = (rule: string) => steps[0]?.lines.find((each) => each.rule === rule);
    expect(steps).toMatchObject([{ stepNumber: 1, cellCode: 'M1', ready: false }]);
    expect(line('revision')).toMatchObject({ state: 'clear', clearedBy: null });
    expect(line('wps')).toMatchObject({ state: 'notClear', clearedBy: 'qa' });
    expect(line('setUp')).toMatchObject({ state: 'cannotSay', clearedBy: 'office' });
    // The cells of this shop have no shifts: nothing can be promised, and every job is late for it.
    expect(promise).toMatchObject({ finishAt: null, spareMin: null });
    expect(promise?.text).toContain('Enter shifts first');
    const { jobs } = (await desk.office.get('/api/late-jobs')).body;
    expect(jobs).toContainEqual(
      expect.objectContaining({ jobId: job.id, finishAt: null, lateMin: null }),
    );
    expect((await desk.office.get(`/api/jobs/${unknownId}/readiness`)).status).toBe(404);
  });
});
