import type { Wpqr, Wps } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { monday, startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { openOrderDesk } from '../support/order-desk.js';
import { ranges, wpqrBody, wpsBody } from '../support/procedures.js';
import { boothStep } from '../support/repeat-part.js';
import { signedIn } from '../support/signed-in.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let qa: Agent;
let coordinator: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  qa = await signedIn(shop, 'qa');
  coordinator = await signedIn(shop, 'coordinator');
});
afterAll(async () => shop.close());

let serial = 100;
/** A record under a number of its own. */
async function record(changes: object = {}): Promise<Wpqr> {
  const number = `WPQR-${(serial += 1)}`;
  const answer = await qa.post('/api/wpqrs').send({ ...wpqrBody, number, ...changes });
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body;
}
/** A draft by QA that rests on a fresh record, unless others are named. */
async function draft(changes: Partial<typeof wpsBody> = {}): Promise<Wps> {
  const wpqrIds = changes.wpqrIds ?? [(await record()).id];
  const number = `WPS-${(serial += 1)}`;
  const answer = await qa.post('/api/wpss').send({ ...wpsBody, number, ...changes, wpqrIds });
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body;
}
async function approved(changes: Partial<typeof wpsBody> = {}): Promise<Wps> {
  const { id, version } = await draft(changes);
  const answer = await approve(coordinator, id, version);
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body;
}
const approve = async (agent: Agent, id: string, expectedVersion: number) =>
  agent.post(`/api/wpss/${id}/approve`).send({ expectedVersion });
const stateOf = async (id: string) => (await qa.get(`/api/wpss/${id}`)).body.state;

describe('doors', () => {
  let made: { wpqr: Wpqr; edit: Wps; approve: Wps; revise: Wps; withdraw: Wps };
  beforeAll(async () => {
    made = {
      wpqr: await record(),
      edit: await draft(),
      approve: await draft(),
      revise: await approved(),
      withdraw: await approved(),
    };
  });
  const doors = () => shop;
  const reason = 'typed from the wrong sheet';

  firstFour('records', doors, { method: 'get', path: () => '/api/wpqrs', allowed: 'welder' });
  firstFour('record', doors, {
    method: 'get',
    path: () => `/api/wpqrs/${made.wpqr.id}`,
    allowed: 'welder',
    malformed: { path: '/api/wpqrs/14', field: 'params.wpqrId' },
  });
  firstFour('add a record', doors, {
    method: 'post',
    path: () => '/api/wpqrs',
    body: () => wpqrBody,
    allowed: 'qa',
    refused: 'manager',
    malformed: { body: { ...wpqrBody, testedOn: '2024-02-31' }, field: 'body.testedOn' },
  });
  firstFour('correct a record', doors, {
    method: 'put',
    path: () => `/api/wpqrs/${made.wpqr.id}`,
    body: () => ({ ...wpqrBody, number: made.wpqr.number, expectedVersion: 1, reason }),
    allowed: 'qa',
    refused: 'office',
    malformed: { body: { ...wpqrBody, expectedVersion: 1 }, field: 'body.reason' },
  });
  firstFour('procedures', doors, {
    method: 'get',
    path: () => '/api/wpss?state=approved',
    allowed: 'welder',
    malformed: { path: '/api/wpss?state=open', field: 'query.state' },
  });
  firstFour('procedure', doors, {
    method: 'get',
    path: () => `/api/wpss/${made.edit.id}`,
    allowed: 'welder',
    malformed: { path: '/api/wpss/14', field: 'params.wpsId' },
  });
  firstFour('write a procedure', doors, {
    method: 'post',
    path: () => '/api/wpss',
    body: () => wpsBody,
    allowed: 'qa',
    refused: 'welder',
    malformed: {
      body: { ...wpsBody, ranges: { ...ranges, currentA: { min: 260, max: 180 } } },
      field: 'body.ranges.currentA',
    },
  });
  firstFour('change a draft', doors, {
    method: 'put',
    path: () => `/api/wpss/${made.edit.id}`,
    body: () => ({ ...wpsBody, expectedVersion: 1 }),
    allowed: 'qa',
    refused: 'office',
    malformed: { body: wpsBody, field: 'body.expectedVersion' },
  });
  firstFour('approve', doors, {
    method: 'post',
    path: () => `/api/wpss/${made.approve.id}/approve`,
    body: () => ({ expectedVersion: 1 }),
    allowed: 'coordinator',
    refused: 'qa',
    malformed: { body: { expectedVersion: '1' }, field: 'body.expectedVersion' },
  });
  firstFour('revise', doors, {
    method: 'post',
    path: () => `/api/wpss/${made.revise.id}/revise`,
    body: () => ({ changeNote: 'travel range narrowed' }),
    allowed: 'qa',
    refused: 'manager',
    malformed: { body: { changeNote: 'x' }, field: 'body.changeNote' },
  });
  firstFour('withdraw', doors, {
    method: 'post',
    path: () => `/api/wpss/${made.withdraw.id}/withdraw`,
    body: () => ({ expectedVersion: made.withdraw.version, reason: 'wire no longer bought' }),
    allowed: 'coordinator',
    refused: 'qa',
    malformed: { body: { expectedVersion: 2, reason: '' }, field: 'body.reason' },
  });

  it.each([
    ['get', `/api/wpqrs/${unknownId}`, undefined],
    ['get', `/api/wpss/${unknownId}`, undefined],
    ['post', `/api/wpss/${unknownId}/approve`, { expectedVersion: 1 }],
    ['post', `/api/wpss/${unknownId}/revise`, { changeNote: 'new wire' }],
    ['post', '/api/wpss', { ...wpsBody, number: 'WPS-900', wpqrIds: [unknownId] }],
  ] as const)('%s %s names what is not there', async (method, path, body) => {
    const answer = await coordinator[method](path).send(body);
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
    expect(answer.body.message).toContain(unknownId);
  });
});

describe('a procedure test record', () => {
  it('is refused with a tested value outside its own printed range, in words', async () => {
    const testedValues = { ...wpqrBody.testedValues, currentA: 290 };
    const answer = await qa.post('/api/wpqrs').send({ ...wpqrBody, number: 'X-1', testedValues });
    expect([answer.status, answer.body.code]).toEqual([400, 'INVALID']);
    expect(answer.body.message).toContain(
      '290 is not within the printed range of current: 180 to 260 A',
    );
    expect(answer.body.fields).toEqual([
      {
        field: 'body.testedValues.currentA',
        given: '290',
        allowed: 'the printed range of current: 180 to 260 A',
      },
    ]);
  });

  it.each([
    { field: 'wireSpeedMMin', given: { min: 6_000, max: 10_500 }, max: 10_500, limit: '100 m/min' },
    { field: 'heatInputKjMm', given: { min: 0.5, max: 713 }, max: 713, limit: '100 kJ/mm' },
    { field: 'currentA', given: { min: 180, max: 26_000 }, max: 26_000, limit: '2000 A' },
    { field: 'wireDiameterMm', given: { min: 1.2, max: 12 }, max: 12, limit: '10 mm' },
  ])('is refused with $field up to $max, which is in another unit', async (wrong) => {
    const printed = { ...ranges, [wrong.field]: wrong.given };
    for (const [path, body] of [
      ['/api/wpqrs', { ...wpqrBody, number: 'X-3', ranges: printed }],
      ['/api/wpss', { ...wpsBody, number: 'X-3', ranges: printed }],
    ] as const) {
      const answer = await qa.post(path).send(body);
      expect([answer.status, answer.body.code]).toEqual([400, 'INVALID']);
      expect(answer.body.fields).toContainEqual({
        field: `body.ranges.${wrong.field}.max`,
        given: String(wrong.max),
        allowed: `must be ${wrong.limit} or less; check the unit`,
      });
    }
  });

  it('is refused with a limit below nothing', async () => {
    const printed = { ...ranges, thicknessMm: { min: -3, max: 12 } };
    const answer = await qa
      .post('/api/wpqrs')
      .send({ ...wpqrBody, number: 'X-4', ranges: printed });
    expect(answer.body.fields).toContainEqual({
      ...{ field: 'body.ranges.thicknessMm.min', given: '-3' },
      allowed: 'must be 0 mm or more',
    });
  });

  it('is refused with a test that is still to come; today in the time zone of the shop counts', async () => {
    // 22:30 UTC on 30 June is 1 July in the shop.
    shop.clock.set('2026-06-30T22:30:00.000Z');
    const tomorrow = await qa
      .post('/api/wpqrs')
      .send({ ...wpqrBody, number: 'X-2', testedOn: '2026-07-02' });
    expect([tomorrow.status, tomorrow.body.fields[0].field]).toEqual([400, 'body.testedOn']);
    expect((await record({ testedOn: '2026-07-01' })).testedOn).toBe('2026-07-01');
    shop.clock.set(monday);
  });

  it('is refused under a number on file', async () => {
    const { number } = await record();
    const answer = await qa.post('/api/wpqrs').send({ ...wpqrBody, number });
    expect([answer.status, answer.body.code]).toEqual([409, 'DUPLICATE']);
    expect(answer.body.fields[0]).toMatchObject({ field: 'body.number', given: number });
  });

  it('cannot be changed while an approved procedure rests on it, and can once it is withdrawn', async () => {
    const wpqr = await record();
    const wps = await approved({ wpqrIds: [wpqr.id] });
    const change = async () =>
      qa.put(`/api/wpqrs/${wpqr.id}`).send({
        ...wpqrBody,
        number: wpqr.number,
        gas: 'M20',
        expectedVersion: 1,
        reason: 'misread',
      });
    const refused = await change();
    expect([refused.status, refused.body.code]).toEqual([409, 'NOT_NOW']);
    expect(refused.body.message).toContain(wps.number);
    await coordinator
      .post(`/api/wpss/${wps.id}/withdraw`)
      .send({ expectedVersion: wps.version, reason: 'record misread' })
      .expect(200);
    const changed = await change();
    expect([changed.status, changed.body.gas, changed.body.version]).toEqual([200, 'M20', 2]);
  });

  it('answers an older version with the record as it stands', async () => {
    const wpqr = await record();
    const body = { ...wpqrBody, number: wpqr.number, expectedVersion: 1, reason: 'misread' };
    await qa
      .put(`/api/wpqrs/${wpqr.id}`)
      .send({ ...body, examiner: 'Second reader' })
      .expect(200);
    const answer = await qa.put(`/api/wpqrs/${wpqr.id}`).send(body);
    expect([answer.status, answer.body.code]).toEqual([409, 'STALE']);
    expect(answer.body.current).toMatchObject({ version: 2, examiner: 'Second reader' });
  });
});

describe('a procedure', () => {
  it('is a draft until a coordinator who had no hand in it approves it', async () => {
    const own = await coordinator
      .post('/api/wpss')
      .send({ ...wpsBody, number: 'WPS-700', wpqrIds: [(await record()).id] });
    const ownApproval = await approve(coordinator, own.body.id, 1);
    expect([ownApproval.status, ownApproval.body.code]).toEqual([403, 'NOT_ALLOWED']);
    expect(ownApproval.body.message).toContain('Another coordinator');

    const wps = await draft();
    await coordinator
      .put(`/api/wpss/${wps.id}`)
      .send({ ...wpsBody, title: 'Changed', wpqrIds: wps.wpqrIds, expectedVersion: 1 })
      .expect(200);
    expect((await approve(coordinator, wps.id, 2)).body.code).toBe('NOT_ALLOWED');
    expect(await stateOf(wps.id)).toBe('draft');

    const done = await approved();
    expect(done).toMatchObject({ state: 'approved', approvedBy: shop.people.coordinator.name });
  });

  it('cannot be approved without a record, nor on a record with a failed test', async () => {
    const bare = await draft({ wpqrIds: [] });
    expect((await approve(coordinator, bare.id, 1)).body).toMatchObject({ code: 'NOT_NOW' });
    const failed = await record({ testResults: [{ test: 'Bend', outcome: 'failed', note: '' }] });
    const onFailed = await draft({ wpqrIds: [failed.id] });
    const answer = await approve(coordinator, onFailed.id, 1);
    expect(answer.body.code).toBe('NOT_NOW');
    expect(answer.body.message).toContain('Bend');
  });

  it('cannot be approved beyond its records; each breach names variable, record and both ranges', async () => {
    const wpqr = await record();
    const wide = { ...ranges, thicknessMm: { min: 3, max: 15 }, positions: ['PA', 'PF'] };
    const wps = await draft({ ranges: wide, wpqrIds: [wpqr.id] });
    const breaches = [
      { variable: 'positions', wpqrNumber: wpqr.number, wps: 'PA, PF', allowed: 'PA, PB' },
      { variable: 'thickness', wpqrNumber: wpqr.number, wps: '3 to 15 mm', allowed: '3 to 12 mm' },
    ];
    expect(wps.breaches).toEqual(breaches);
    const answer = await approve(coordinator, wps.id, 1);
    expect([answer.status, answer.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(answer.body.message).toContain(`thickness 3 to 15 mm, ${wpqr.number} allows 3 to 12 mm`);
    expect(answer.body.current.breaches).toEqual(breaches);
    expect(await stateOf(wps.id)).toBe('draft');
  });

  it('is superseded by the approval of its next revision, in the same commit', async () => {
    const first = await approved();
    const revised = await qa
      .post(`/api/wpss/${first.id}/revise`)
      .send({ changeNote: 'new gas mix' });
    expect(revised.body).toMatchObject({ revision: 2, state: 'draft', wpqrIds: first.wpqrIds });
    expect(await stateOf(first.id)).toBe('approved');
    await approve(coordinator, revised.body.id, 1);
    const old = (await qa.get(`/api/wpss/${first.id}`)).body;
    expect([old.state, old.supersededAt]).toEqual(['superseded', shop.clock.now().toISOString()]);
    expect(old.revisions.map((each: Wps) => each.state)).toEqual(['approved', 'superseded']);
    const live = await shop.context.services.procedures.approvedByNumber(first.number);
    expect([live?.id, live?.revision]).toEqual([revised.body.id, 2]);
    const history = (await qa.get(`/api/history/wps/${first.id}`)).body.entries;
    expect(history.map((each: { type: string }) => each.type)).toEqual([
      'wps.superseded',
      'wps.approved',
      'wps.written',
    ]);
  });

  it('says which steps and waiting jobs name it', async () => {
    const desk = await openOrderDesk(shop);
    const wps = await approved();
    const part = await desk.part({ steps: [{ ...boothStep, wpsNumber: wps.number }] });
    const job = await desk.takeJob(desk.line(part.id));
    const usedBy = async () => (await qa.get(`/api/wpss/${wps.id}`)).body.usedBy;
    const waiting = { jobNumber: job.number, partNumber: job.partNumber, cellCode: 'M1' };
    expect(await usedBy()).toEqual({ steps: 1, waitingJobs: [waiting] });
    await desk.make(job);
    expect(await usedBy()).toEqual({ steps: 1, waitingJobs: [] });
  });

  it('has one draft at a time', async () => {
    const wps = await approved();
    const revise = async () =>
      qa.post(`/api/wpss/${wps.id}/revise`).send({ changeNote: 'new gas' });
    expect((await revise()).status).toBe(200);
    const second = await revise();
    expect([second.status, second.body.code]).toEqual([409, 'NOT_NOW']);
    expect(second.body.message).toContain('revision 2');
  });

  it('never changes once approved', async () => {
    const wps = await approved();
    const change = await qa
      .put(`/api/wpss/${wps.id}`)
      .send({ ...wpsBody, title: 'Other', wpqrIds: wps.wpqrIds, expectedVersion: wps.version });
    expect([change.status, change.body.code]).toEqual([409, 'NOT_NOW']);
    expect((await approve(coordinator, wps.id, wps.version)).body.code).toBe('NOT_NOW');
    expect((await qa.get(`/api/wpss/${wps.id}`)).body).toEqual(wps);
  });

  it('is out of use once withdrawn, with the reason in its history', async () => {
    const wps = await approved();
    const withdraw = async (expectedVersion: number) =>
      coordinator
        .post(`/api/wpss/${wps.id}/withdraw`)
        .send({ expectedVersion, reason: 'wire no longer bought' });
    expect((await withdraw(wps.version)).body.state).toBe('withdrawn');
    expect(await shop.context.services.procedures.approvedByNumber(wps.number)).toBeNull();
    expect((await withdraw(wps.version + 1)).body.code).toBe('NOT_NOW');
    const [last] = (await qa.get(`/api/history/wps/${wps.id}`)).body.entries;
    expect(last).toMatchObject({ type: 'wps.withdrawn', reason: 'wire no longer bought' });
  });

  it('answers an older version with the procedure as it stands', async () => {
    const wps = await draft();
    const body = { ...wpsBody, wpqrIds: wps.wpqrIds, expectedVersion: 1 };
    await qa
      .put(`/api/wpss/${wps.id}`)
      .send({ ...body, title: 'First in' })
      .expect(200);
    const answer = await qa.put(`/api/wpss/${wps.id}`).send({ ...body, title: 'Second in' });
    expect([answer.status, answer.body.code]).toEqual([409, 'STALE']);
    expect(answer.body.current).toMatchObject({ title: 'First in', version: 2 });
  });

  it('answers a repeated command with the first answer and is written once', async () => {
    const body = { ...wpsBody, number: 'WPS-800' };
    const write = async () => qa.post('/api/wpss').set('Idempotency-Key', 'key-0001').send(body);
    const [first, again] = [await write(), await write()];
    expect([first.status, again.status]).toEqual([200, 200]);
    expect(again.body).toEqual(first.body);
    const { wpss } = (await qa.get('/api/wpss')).body;
    expect(wpss.filter((each: Wps) => each.number === 'WPS-800')).toHaveLength(1);
    expect((await qa.post('/api/wpss').send(body)).body.code).toBe('DUPLICATE');
  });
});
