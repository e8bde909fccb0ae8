import type { Job, Ncr } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { openQualityFloor, type QualityFloor } from '../support/quality-floor.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let floor: QualityFloor;
let wpsId: string;

beforeAll(async () => {
  shop = await startTestShop();
  floor = await openQualityFloor(shop);
  const { wpss } = (await floor.qa.get('/api/wpss')).body;
  wpsId = wpss[0].id;
});
afterAll(async () => shop.close());

/** A batch of twelve, all made and counted good, the run still open. */
async function made(options: { twoPersons?: boolean } = {}): Promise<{ job: Job; runId: string }> {
  const job = await floor.robot.job(options);
  const run = await floor.pulled(job);
  const piece = await floor.check(run, 5.7);
  if (piece.result === 'waitingQa') {
    const body = { accepted: true, expectedVersion: 1 };
    await floor.done(floor.qa.post(`/api/first-pieces/${piece.id}/signature`).send(body));
  }
  await floor.done(floor.act(run, 'counts', { good: 12 }));
  return { job, runId: run.id };
}
const complete = async (runId: string) =>
  floor.done(floor.act({ id: runId }, 'put-down', { batchComplete: true }));
const reason = 'porous at the start of weld 1';
const decide = async (ncr: Ncr, body: object, agent = floor.coordinator) =>
  agent
    .post(`/api/ncrs/${ncr.id}/decisions`)
    .send({ quantity: 1, reason, expectedVersion: ncr.version, ...body });
const inspect = async (ncr: Ncr, at: number, accepted: number) =>
  floor.qa
    .post(`/api/ncrs/${ncr.id}/decisions/${ncr.decisions[at]?.id}/inspection`)
    .send({ accepted, expectedVersion: ncr.version });
const close = async (ncr: Ncr) =>
  floor.qa
    .post(`/api/ncrs/${ncr.id}/close`)
    .send({ note: 'all parts settled', expectedVersion: ncr.version });

describe('doors', () => {
  let job: Job;
  let ncr: Ncr;
  let decided: Ncr;
  let closable: Ncr;
  beforeAll(async () => {
    const batch = await made();
    job = batch.job;
    ncr = await floor.raise(job, { quantity: 1 });
    const rework = await floor.raise(job, { quantity: 1 });
    decided = (await decide(rework, { disposition: 'rework', wpsId })).body;
    closable = (await decide(await floor.raise(job, { quantity: 1 }), { disposition: 'useAsIs' }))
      .body;
    await complete(batch.runId);
  });

  firstFour('NCRs', () => shop, {
    method: 'get',
    path: () => '/api/ncrs?state=open',
    allowed: 'welder',
    malformed: { path: '/api/ncrs?state=new', field: 'query.state' },
  });
  firstFour('one NCR', () => shop, {
    method: 'get',
    path: () => `/api/ncrs/${ncr.id}`,
    allowed: 'office',
    malformed: { path: '/api/ncrs/7', field: 'params.ncrId' },
  });
  firstFour('raise an NCR', () => shop, {
    method: 'post',
    path: () => `/api/job-steps/${job.steps[0]?.id}/ncrs`,
    body: () => ({ defect: 'undercut', quantity: 1, counted: true }),
    allowed: 'welder',
    refused: 'office',
    malformed: { body: { defect: 'ugly', quantity: 1, counted: true }, field: 'body.defect' },
  });
  firstFour('decide on an NCR', () => shop, {
    method: 'post',
    path: () => `/api/ncrs/${ncr.id}/decisions`,
    body: () => ({ disposition: 'useAsIs', quantity: 1, reason, expectedVersion: 1 }),
    allowed: 'coordinator',
    refused: 'qa',
    malformed: { body: { disposition: 'useAsIs', quantity: 0, reason }, field: 'body.quantity' },
  });
  firstFour('inspect rework', () => shop, {
    method: 'post',
    path: () => `/api/ncrs/${decided.id}/decisions/${decided.decisions[0]?.id}/inspection`,
    body: () => ({ accepted: 1, expectedVersion: decided.version }),
    allowed: 'qa',
    refused: 'welder',
    malformed: { body: { accepted: -1, expectedVersion: 2 }, field: 'body.accepted' },
  });
  firstFour('close an NCR', () => shop, {
    method: 'post',
    path: () => `/api/ncrs/${closable.id}/close`,
    body: () => ({ note: 'seen and settled', expectedVersion: closable.version }),
    allowed: 'qa',
    refused: 'welder',
    malformed: { body: { note: 'x', expectedVersion: 2 }, field: 'body.note' },
  });

  it('refuses what is unknown', async () => {
    const answers = await Promise.all([
      floor.qa.get(`/api/ncrs/${unknownId}`),
      floor.operator
        .post(`/api/job-steps/${unknownId}/ncrs`)
        .send({ defect: 'size', quantity: 1, counted: false }),
      decide({ ...ncr, id: unknownId }, { disposition: 'scrap' }),
      close({ ...ncr, id: unknownId }),
      floor.qa
        .post(`/api/ncrs/${ncr.id}/decisions/${unknownId}/inspection`)
        .send({ accepted: 1, expectedVersion: 2 }),
    ]);
    expect(answers.map(({ status }) => status)).toEqual([404, 404, 404, 404, 404]);
  });
});

describe('two of twelve porous', () => {
  it('keeps the job until one is reworked and one scrapped: 11 good and 1 scrap', async () => {
    const { job, runId } = await made();
    const raised = await floor.raise(job, { weldNumber: 1 });
    expect(raised).toMatchObject({ state: 'open', undecided: 2, quarantined: 2, quantity: 2 });
    const counts = async () => {
      const { state, openNcrs, steps } = await floor.jobNow(job);
      const [step] = steps;
      return [state, openNcrs, step?.goodCount, step?.scrapCount, step?.quarantinedCount];
    };
    expect(await counts()).toEqual(['running', [raised.number], 10, 0, 2]);
    await complete(runId);
    expect(await counts()).toEqual(['running', [raised.number], 10, 0, 2]);

    const unnamed = await decide(raised, { disposition: 'rework' });
    expect([unnamed.status, unnamed.body.fields[0].field]).toEqual([409, 'body.wpsId']);
    const rework = await decide(raised, { disposition: 'rework', wpsId });
    expect(rework.status, rework.body.message).toBe(200);
    expect(rework.body.decisions[0].wpsLabel).toBe('WPS-014 r1');
    const many = await decide(rework.body, { disposition: 'scrap', quantity: 2 });
    expect(many.body.fields[0]).toMatchObject({ field: 'body.quantity', allowed: '1 to 1' });
    const scrap: Ncr = (await decide(rework.body, { disposition: 'scrap' })).body;
    expect(scrap).toMatchObject({ state: 'decided', undecided: 0, quarantined: 1 });
    expect(await counts()).toEqual(['running', [raised.number], 10, 1, 1]);
    const early = await close(scrap);
    expect(early.body.message).toContain('1 reworked parts are not inspected again');

    const inspected: Ncr = (await inspect(scrap, 0, 1)).body;
    expect(await counts()).toEqual(['running', [raised.number], 11, 1, 0]);
    expect((await close(inspected)).body.state).toBe('closed');
    expect(await counts()).toEqual(['closedShort', [], 11, 1, 0]);
    expect((await decide(inspected, { disposition: 'scrap' })).body.code).toBe('STALE');

    const { entries } = (await floor.qa.get(`/api/history/nonconformance/${raised.id}`)).body;
    expect(entries.map(({ type, meaning }: Record<string, string>) => [type, meaning])).toEqual([
      ['ncr.closed', 'approved'],
      ['ncr.inspected', 'checked'],
      ['ncr.decided', 'approved'],
      ['ncr.decided', 'approved'],
      ['ncr.raised', 'made'],
    ]);
  });
});

describe('raising', () => {
  it('takes no more out of the good ones than are counted, and others beside them', async () => {
    const job = await floor.robot.job();
    const run = await floor.pulled(job);
    const path = `/api/job-steps/${job.steps[0]?.id}/ncrs`;
    const none = await floor.operator
      .post(path)
      .send({ defect: 'crack', quantity: 1, counted: true });
    expect([none.status, none.body.fields[0].field]).toEqual([409, 'body.quantity']);
    expect(none.body.message).toContain('Say that they are not counted yet');
    const weld = await floor.operator
      .post(path)
      .send({ defect: 'crack', quantity: 1, counted: false, weldNumber: 9 });
    expect(weld.body.message).toContain('has no weld 9');
    await floor.raise(job, { quantity: 1, counted: false });
    expect((await floor.jobNow(job)).steps[0]).toMatchObject({ goodCount: 0, quarantinedCount: 1 });
    await floor.done(floor.act(run, 'put-down'));
  });

  it('is found by state, job and number', async () => {
    const { job, runId } = await made();
    const one = await floor.raise(job, { quantity: 1 });
    const list = async (query: string): Promise<number[]> =>
      (await floor.qa.get(`/api/ncrs?jobId=${job.id}&${query}`)).body.ncrs.map(
        ({ number }: Ncr) => number,
      );
    expect(await list('state=open')).toEqual([one.number]);
    expect(await list('state=closed')).toEqual([]);
    expect(await list(`search=${one.number}`)).toEqual([one.number]);
    expect(await list('search=nobody')).toEqual([]);
    await complete(runId);
  });
});

describe('deciding', () => {
  it('asks for the customer’s number of a concession, and knows stale edits', async () => {
    const { job, runId } = await made();
    const ncr = await floor.raise(job);
    const bare = await decide(ncr, { disposition: 'concession' });
    expect([bare.status, bare.body.fields[0].field]).toEqual([422, 'body.concession']);
    const given = await decide(ncr, { disposition: 'concession', concession: 'K-88' });
    expect(given.body).toMatchObject({ undecided: 1, quarantined: 1, version: 2 });
    const stale = await decide(ncr, { disposition: 'scrap' });
    expect([stale.status, stale.body.current.version]).toEqual([409, 2]);
    await complete(runId);
  });

  it('asks again for rework that is turned down', async () => {
    const { job, runId } = await made();
    const ncr = await floor.raise(job);
    const rework = { disposition: 'rework', wpsId, quantity: 2 };
    const decided: Ncr = (await decide(ncr, rework)).body;
    const many = await inspect(decided, 0, 3);
    expect(many.body.fields[0]).toMatchObject({ field: 'body.accepted', allowed: '0 to 2' });
    const turned: Ncr = (await inspect(decided, 0, 1)).body;
    expect(turned).toMatchObject({ state: 'open', undecided: 1, quarantined: 1 });
    expect((await inspect(turned, 0, 1)).body.message).toContain('inspected already');
    expect((await close(turned)).body.message).toContain('1 parts are not decided');
    await complete(runId);
  });

  it('is not for the one who raised it where two persons sign', async () => {
    const { job, runId } = await made({ twoPersons: true });
    const own = await floor.raise(job, {}, floor.coordinator);
    const refused = await decide(own, { disposition: 'scrap' });
    expect([refused.status, refused.body.message]).toEqual([
      403,
      expect.stringContaining('another coordinator decides'),
    ]);
    const other = await floor.raise(job, { quantity: 1 });
    expect((await decide(other, { disposition: 'scrap' })).status).toBe(200);
    await complete(runId);
  });
});
