import type { Job } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { openOrderDesk, type OrderDesk } from '../support/order-desk.js';
import { boothStep, releaseRevision } from '../support/repeat-part.js';

let shop: TestShop;
let desk: OrderDesk;

beforeAll(async () => {
  shop = await startTestShop();
  desk = await openOrderDesk(shop);
});
afterAll(async () => shop.close());

describe('an ordered revision that is not the released one', () => {
  const release = async (id: string, expectedVersion: number) =>
    desk.coordinator
      .post(`/api/jobs/${id}/release`)
      .send({ changeNote: 'both drawings compared: one hole moved', expectedVersion });

  it('holds the job until the coordinator signs the comparison', async () => {
    const { id } = await desk.part();
    await desk.make(await desk.takeJob(desk.line(id)));
    const job = await desk.takeJob(desk.line(id, { orderedRevision: 'C' }));
    expect(job).toMatchObject({
      released: false,
      holdReason: 'revision B made last, C ordered: compare before release',
    });
    const [step] = job.steps;
    const pull = await desk.welder
      .post(`/api/cells/${step?.cellId}/pull`)
      .send({ jobStepId: step?.id });
    expect(pull.status).toBe(409);
    expect((await release(job.id, 1)).body).toMatchObject({ released: true, holdReason: null });
    const [event] = (await desk.office.get(`/api/history/job/${job.id}`)).body.entries;
    expect(event).toMatchObject({ type: 'job.released', meaning: 'checked' });
    expect((await release(job.id, 2)).body.code).toBe('NOT_NOW');
  });

  it('moves the job to the ordered revision where that has been released since', async () => {
    const { id } = await desk.part();
    const job = await desk.takeJob(desk.line(id, { orderedRevision: 'C' }));
    const steps = [{ ...boothStep, unitMin: 10 }];
    await releaseRevision(desk.office, id, { label: 'C', steps });
    const { body: moved } = await release(job.id, 1);
    expect(moved).toMatchObject({ released: true, revision: 'C', orderedRevision: 'C' });
    // 30 + 10 + 12 x 10 = 160 min
    expect(moved.steps).toMatchObject([{ state: 'waiting', plannedMin: 160 }]);
  });

  it('moves a released job that waited while another revision was released, unless work has begun', async () => {
    const { id } = await desk.part();
    const [waits, begun] = (await desk.take(desk.line(id), desk.line(id))).jobs as [Job, Job];
    const run = await desk.pull(begun);
    expect((await release(waits.id, 1)).body.code).toBe('NOT_NOW');
    await releaseRevision(desk.office, id, { label: 'C' });
    expect((await release(waits.id, 1)).body).toMatchObject({ released: true, revision: 'C' });
    const { version } = await desk.jobNow(begun.id);
    const answer = await release(begun.id, version);
    expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
    expect(answer.body.message).toContain('has begun in revision B');
    expect(await desk.jobNow(begun.id)).toMatchObject({
      revision: 'B',
      steps: [{ state: 'held' }],
    });
    await desk.welder.post(`/api/runs/${run}/put-down`).send({}).expect(200);
  });
});

describe('a job on its way', () => {
  const edit = async (job: Job, changes: object) =>
    desk.office
      .patch(`/api/jobs/${job.id}`)
      .send({ reason: 'customer asked', expectedVersion: job.version, ...changes });
  const cancel = async (job: Job) =>
    desk.office
      .post(`/api/jobs/${job.id}/cancel`)
      .send({ reason: 'customer withdrew', expectedVersion: job.version });
  it('is planned anew with another quantity, and keeps why', async () => {
    const job = await desk.takeJob(desk.line((await desk.part()).id));
    const answer = await edit(job, { quantity: 20, dueOn: '2026-11-13' });
    // 30 + 10 + 20 x 4 = 120 min
    expect(answer.body).toMatchObject({ quantity: 20, dueOn: '2026-11-13', version: 2 });
    expect(answer.body.steps[0].plannedMin).toBe(120);
    const [event] = (await desk.office.get(`/api/history/job/${job.id}`)).body.entries;
    expect(event).toMatchObject({
      type: 'job.changed',
      before: { quantity: 12 },
      after: { quantity: 20 },
      reason: 'customer asked',
    });
  });

  it('answers an older version with the job as it stands', async () => {
    const job = await desk.takeJob(desk.line((await desk.part()).id));
    await edit(job, { quantity: 20 });
    const answer = await edit(job, { quantity: 30 });
    expect([answer.status, answer.body.code]).toEqual([409, 'STALE']);
    expect(answer.body.current).toMatchObject({ quantity: 20, version: 2 });
  });

  it('cannot shrink below what is made, and cannot be cancelled while somebody holds it', async () => {
    const job = await desk.takeJob(desk.line((await desk.part()).id));
    const run = await desk.pull(job);
    await desk.welder.post(`/api/runs/${run}/counts`).send({ good: 5 }).expect(200);
    const running = await desk.jobNow(job.id);
    const smaller = await edit(running, { quantity: 4 });
    expect([smaller.status, smaller.body.code]).toEqual([409, 'NOT_NOW']);
    expect(smaller.body.fields[0]).toEqual({
      field: 'body.quantity',
      given: '4',
      allowed: '5 or more',
    });
    const held = await cancel(running);
    expect([held.status, held.body.code]).toEqual([409, 'NOT_NOW']);
    expect(held.body.message).toContain(shop.people.welder.name);
    await desk.welder.post(`/api/runs/${run}/put-down`).send({}).expect(200);
    const cancelled = await cancel(await desk.jobNow(job.id));
    expect(cancelled.body).toMatchObject({ state: 'cancelled', late: false });
    expect(cancelled.body.steps[0].state).toBe('cancelled');
  });

  it('stays as it is once it is done or cancelled', async () => {
    const job = await desk.takeJob(desk.line((await desk.part()).id));
    await desk.make(job);
    const done = await desk.jobNow(job.id);
    expect(done.state).toBe('done');
    expect((await edit(done, { quantity: 20 })).body.code).toBe('NOT_NOW');
    expect((await cancel(done)).body.code).toBe('NOT_NOW');
  });

  it('says who found the kit incomplete', async () => {
    const job = await desk.takeJob(desk.line((await desk.part()).id));
    const [step] = job.steps;
    const at = `/api/job-steps/${step?.id}/kit`;
    const answer = await desk.welder
      .post(at)
      .send({ complete: false, note: 'plates at the laser' });
    expect(answer.body.steps[0].kitComplete).toBe(false);
    const [event] = (await desk.office.get(`/api/history/jobStep/${step?.id}`)).body.entries;
    expect(event).toMatchObject({ reason: 'plates at the laser', actorCode: 'W07' });
  });
});
