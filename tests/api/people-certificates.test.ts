import type { Certificate } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { unknownId } from '../support/guarded.js';

const signed = {
  kind: 'welder',
  code: 'ISO 9606-1',
  edition: '2012',
  process: '135',
  jointTypes: ['FW'],
  positions: ['PA', 'PB'],
  thicknessMm: { min: 3, max: null },
  testedOn: '2026-06-02',
};
const evidence = 'Welded jobs 1041 and 1063, visual test without findings.';

describe('certificates', () => {
  let shop: TestShop;
  let qa: Agent;
  let coordinator: Agent;
  beforeAll(async () => {
    shop = await startTestShop();
    qa = await shop.as('qa');
    coordinator = await shop.as('coordinator');
  });
  afterAll(async () => shop.close());

  const add = (number: string, changes: object = {}, personId = shop.people.welder.id) =>
    qa.post(`/api/people/${personId}/certificates`).send({ ...signed, number, ...changes });
  const confirm = (id: string, confirmedOn: string) =>
    coordinator.post(`/api/certificates/${id}/confirmations`).send({ confirmedOn, evidence });

  // ISO 9606-1:2012, 9.2: the test counts as the first confirmation.
  it('are kept with their printed ranges, and hold six months from the test', async () => {
    const { body } = await add('W-101').expect(200);
    expect(body).toMatchObject({
      number: 'W-101',
      personCode: 'W07',
      thicknessMm: { min: 3, max: null },
      diameterMm: null,
      confirmations: [],
      confirmedUntil: '2026-12-02',
      standing: 'current',
    });
    const listed = await qa.get('/api/certificates').query({ personId: shop.people.welder.id });
    expect((listed.body as { certificates: Certificate[] }).certificates).toContainEqual(body);
    const others = await qa.get('/api/certificates').query({ personId: shop.people.office.id });
    expect(others.body).toEqual({ certificates: [] });
  });

  it('have lapsed when nobody confirmed them in the six months after the test', async () => {
    const { body } = await add('W-110', { testedOn: '2026-04-04' }).expect(200);
    expect(body).toMatchObject({ confirmedUntil: '2026-10-04', standing: 'lapsed' });
  });

  // ISO 9606-1:2012, 9.2: confirmed every six months.
  it('hold for six months from a confirmation, whose day of entry is kept too', async () => {
    const { id } = (await add('W-102').expect(200)).body as Certificate;
    const { body } = await confirm(id, '2026-08-31').expect(200);
    expect(body).toMatchObject({
      confirmedUntil: '2027-02-28',
      standing: 'current',
      version: 2,
      confirmations: [{ confirmedOn: '2026-08-31', confirmedBy: 'C01', evidence }],
    });
    expect((body as Certificate).confirmations[0]?.enteredAt).toMatch(/^2026-10-05T/);
    const { body: history } = await qa.get(`/api/history/certificate/${id}`).expect(200);
    expect((history as { entries: object[] }).entries).toMatchObject([
      { type: 'certificate.confirmed', actorCode: 'C01', meaning: 'approved', reason: evidence },
      { type: 'certificate.added', actorCode: 'Q02', meaning: 'checked' },
    ]);
  });

  it('have a number of their own', async () => {
    await add('W-103').expect(200);
    expect((await add('W-103').expect(409)).body).toMatchObject({
      code: 'DUPLICATE',
      fields: [{ field: 'body.number', given: 'W-103' }],
    });
  });

  it.each([
    ['a test after today', { testedOn: '2026-10-06' }, 400, 'body.testedOn'],
    ['an end before the test', { validUntil: '2026-06-01' }, 400, 'body.validUntil'],
    [
      'a test of function knowledge after today',
      { functionTestOn: '2026-10-06' },
      400,
      'body.functionTestOn',
    ],
    ['a thickness turned round', { thicknessMm: { min: 12, max: 3 } }, 400, 'body.thicknessMm'],
    ['an operator without a cell', { kind: 'operator' }, 400, 'body.cellId'],
    ['an unknown cell', { kind: 'operator', cellId: unknownId }, 404, 'body.cellId'],
  ] as const)('are refused with %s', async (_what, changes, status, field) => {
    const reply = await add('W-104', changes).expect(status);
    expect((reply.body as { fields: object[] }).fields).toMatchObject([{ field }]);
  });

  it('are refused for a person who is not on file', async () => {
    expect((await add('W-105', {}, unknownId).expect(404)).body).toMatchObject({
      code: 'NOT_FOUND',
    });
  });

  it.each([
    ['before the test', '2026-06-01'],
    ['after today', '2026-10-06'],
  ])('are not confirmed for a day %s', async (when, day) => {
    const { id } = (await add(`W ${when}`).expect(200)).body as Certificate;
    const reply = await confirm(id, day).expect(409);
    expect(reply.body).toMatchObject({
      code: 'NOT_NOW',
      fields: [{ field: 'body.confirmedOn', given: day, allowed: '2026-06-02 to 2026-10-05' }],
    });
  });

  // ISO 9606-1:2012, 9.2: without a confirmation every six months a certificate has lapsed; a later one revives nothing.
  it('are not confirmed anew once the six months of the confirmation before are over', async () => {
    const { id } = (await add('W-112', { testedOn: '2025-06-02' }).expect(200)).body as Certificate;
    await confirm(id, '2025-11-03').expect(200);
    const reply = await confirm(id, '2026-10-01').expect(409);
    expect(reply.body).toMatchObject({
      code: 'NOT_NOW',
      fields: [
        { field: 'body.confirmedOn', given: '2026-10-01', allowed: '2025-06-02 to 2026-05-03' },
      ],
    });
    expect((reply.body as { message: string }).message).toContain('Only a new test helps');
    // A signature that was given in time is entered late, and carries on from there.
    await confirm(id, '2026-05-03').expect(200);
    expect((await confirm(id, '2026-10-01').expect(200)).body).toMatchObject({
      confirmedUntil: '2027-04-01',
      standing: 'current',
    });
  });

  it('are not confirmed by their own holder', async () => {
    const { id } = (await add('C-1', {}, shop.people.coordinator.id).expect(200))
      .body as Certificate;
    expect((await confirm(id, '2026-10-01').expect(409)).body).toMatchObject({ code: 'NOT_NOW' });
    await confirm(unknownId, '2026-10-01').expect(404);
  });
});
