import type { BodyOf, parts, PartDetail, PartSummary, ReplyOf } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { addCustomer, addReleasedPart } from '../support/repeat-part.js';

type Customer = ReplyOf<typeof parts.addCustomer>;

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let office: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  office = await shop.as('office');
});
afterAll(async () => shop.close());

let serial = 100;
async function added(
  changes: Partial<BodyOf<typeof parts.add>> = {},
  aliases: readonly string[] = [],
): Promise<PartDetail> {
  const number = `P-${(serial += 1)}`;
  const answer = await office.post('/api/parts').send({ number, name: 'Bracket', ...changes });
  expect(answer.status, answer.body.message).toBe(200);
  for (const alias of aliases) expect((await alsoKnownAs(answer.body.id, alias)).status).toBe(200);
  return answer.body;
}
const alsoKnownAs = async (partId: string, alias: string, customerId: string | null = null) =>
  office.post(`/api/parts/${partId}/aliases`).send({ alias, customerId });
const part = async (id: string): Promise<PartDetail> =>
  (await office.get(`/api/parts/${id}`).expect(200)).body;
async function found(search: string, more = ''): Promise<string[]> {
  const answer = await office.get(`/api/parts?search=${encodeURIComponent(search)}${more}`);
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body.parts.map(({ number }: PartSummary) => number);
}

describe('doors', () => {
  let made: { part: PartDetail; customer: Customer };
  let aliasId: string;
  beforeAll(async () => {
    const customer = await office.post('/api/customers').send({ name: 'Sorrel' });
    made = { part: await added(), customer: customer.body };
    aliasId = (await alsoKnownAs(made.part.id, 'to be removed')).body.aliasRows[0].id;
  });
  const doors = () => shop;
  firstFour('customers', doors, {
    method: 'get',
    path: () => '/api/customers',
    allowed: 'qa',
    refused: 'welder',
    malformed: { path: '/api/customers?limit=0', field: 'query.limit' },
  });
  firstFour('add a customer', doors, {
    method: 'post',
    path: () => '/api/customers',
    body: () => ({ name: 'Juniper' }),
    allowed: 'office',
    refused: 'qa',
    malformed: { body: { name: ' ' }, field: 'body.name' },
  });
  firstFour('change a customer', doors, {
    method: 'patch',
    path: () => `/api/customers/${made.customer.id}`,
    body: () => ({ active: false, expectedVersion: 1 }),
    allowed: 'manager',
    refused: 'welder',
    malformed: { body: { active: false }, field: 'body.expectedVersion' },
  });
  firstFour('parts', doors, {
    method: 'get',
    path: () => '/api/parts?search=P',
    allowed: 'welder',
    malformed: { path: '/api/parts?offset=-1', field: 'query.offset' },
  });
  firstFour('part', doors, {
    method: 'get',
    path: () => `/api/parts/${made.part.id}`,
    allowed: 'welder',
    malformed: { path: '/api/parts/P-100', field: 'params.partId' },
  });
  firstFour('add a part', doors, {
    method: 'post',
    path: () => '/api/parts',
    body: () => ({ number: 'DOOR-1', name: 'Door' }),
    allowed: 'office',
    refused: 'qa',
    malformed: { body: { number: '-1', name: 'Door' }, field: 'body.number' },
  });
  firstFour('change a part', doors, {
    method: 'patch',
    path: () => `/api/parts/${made.part.id}`,
    body: () => ({ notes: 'long side first', expectedVersion: 1 }),
    allowed: 'office',
    refused: 'welder',
    malformed: {
      body: { traceability: 'none', expectedVersion: 1 },
      field: 'body.traceability',
    },
  });
  firstFour('add an alias', doors, {
    method: 'post',
    path: () => `/api/parts/${made.part.id}/aliases`,
    body: () => ({ alias: 'door alias' }),
    allowed: 'office',
    refused: 'welder',
    malformed: { body: { alias: 'x'.repeat(61) }, field: 'body.alias' },
  });
  firstFour('remove an alias', doors, {
    method: 'delete',
    path: () => `/api/parts/${made.part.id}/aliases/${aliasId}`,
    allowed: 'office',
    refused: 'qa',
    malformed: { path: `/api/parts/${unknownId}/aliases/1`, field: 'params.aliasId' },
  });
});

describe('customers', () => {
  it('are found by part of the name, page by page, with what they have open', async () => {
    for (const name of ['Mallow One', 'Mallow Two', 'MALLOW Three']) await addCustomer(shop, name);
    const answer = await office.get('/api/customers?search=mallow&limit=2&offset=1');
    expect(answer.body.total).toBe(3);
    expect(answer.body.customers.map(({ name }: Customer) => name)).toEqual([
      'Mallow One',
      'Mallow Two',
    ]);
    expect((await office.get('/api/customers?search=m%25w')).body.total).toBe(0);
  });
  it('are counted by their parts and open jobs', async () => {
    const { id } = await addCustomer(shop, 'Tansy');
    const made = await addReleasedPart(shop, { number: 'TANSY-1' });
    await added({ customerId: id });
    const order = await office.post('/api/orders').send({
      ...{ customerId: id, customerOrder: '4711' },
      lines: [
        { partId: made.id, orderedRevision: 'B', quantity: 4, dueOn: '2026-10-09' },
        { partId: made.id, orderedRevision: 'B', quantity: 5, dueOn: '2026-10-12' },
      ],
    });
    expect(order.status, order.body.message).toBe(200);
    const [customer] = (await office.get('/api/customers?search=Tansy')).body.customers;
    expect(customer).toMatchObject({ partCount: 1, openJobCount: 2 });
  });
  it('have names of their own, whatever the case', async () => {
    await addCustomer(shop, 'Yarrow & Söhne');
    const again = await office.post('/api/customers').send({ name: 'YARROW & SÖHNE' });
    expect([again.status, again.body.code]).toEqual([409, 'DUPLICATE']);
    expect(again.body.message).toContain('Yarrow & Söhne');
  });
  it('change by the latest version alone', async () => {
    const { id } = await addCustomer(shop, 'Teasel');
    const path = `/api/customers/${id}`;
    await office.patch(path).send({ active: false, expectedVersion: 1 }).expect(200);
    const late = await office.patch(path).send({ name: 'Teazle', expectedVersion: 1 });
    expect([late.status, late.body.code]).toEqual([409, 'STALE']);
    expect(late.body.current).toMatchObject({ name: 'Teasel', active: false, version: 2 });
    const unknown = await office
      .patch(`/api/customers/${unknownId}`)
      .send({ active: false, expectedVersion: 1 });
    expect([unknown.status, unknown.body.code]).toEqual([404, 'NOT_FOUND']);
  });
});

describe('finding parts', () => {
  beforeAll(async () => {
    await added({ number: 'Q-210-01', name: 'Cross member' }, ['Z-88', 'ALDER 4.4']);
    await added({ number: 'Z-881', name: 'Öse links' });
    await added({ number: 'A-Z-88', name: 'Rail 50 %' }, ['under_score']);
  });
  it.each([
    ['by number without its dashes', 'q21001', ['Q-210-01']],
    ['by part of the name', 'ross mem', ['Q-210-01']],
    ['by an alias in another spelling', 'alder-44', ['Q-210-01']],
    ['by a name with a letter beyond ASCII', 'ÖSE', ['Z-881']],
    [
      'an exact alias first, then beginnings, then the rest',
      'z 88',
      ['Q-210-01', 'Z-881', 'A-Z-88'],
    ],
    ['an exact number before a beginning', 'Z881', ['Z-881']],
    ['with a per cent sign that means itself', '%', ['A-Z-88']],
    ['with no wild cards', 'Q%01', []],
    ['with no wild cards for one character', 'Q_2_0', []],
    ['by punctuation of another kind', 'Q_210/01', ['Q-210-01']],
    ['nothing', 'no such part', []],
  ])('%s', async (_case, search, numbers) => {
    expect(await found(search)).toEqual(numbers);
  });
  it('takes an underscore for punctuation, not for any character', async () => {
    expect(await found('Q_10_01')).toEqual([]);
    expect(await found('under_score')).toEqual(['A-Z-88']);
  });
  it('answers page by page with the whole count', async () => {
    expect(await found('Z-88', '&limit=2&offset=1')).toEqual(['Z-881', 'A-Z-88']);
    expect((await office.get('/api/parts?search=Z-88&limit=1')).body.total).toBe(3);
    const all = (await office.get('/api/parts?limit=500')).body;
    expect(all.total).toBe(all.parts.length);
    const numbers = all.parts.map(({ number }: PartSummary) => number);
    expect(numbers).toEqual(numbers.toSorted());
  });
});

describe('a part', () => {
  it('starts with what a new part has, and keeps what was typed', async () => {
    const { id: customerId } = await addCustomer(shop, 'Woodruff');
    const made = await added({ name: "O'Neil <b>", customerId, notes: 'two\nlines' });
    expect(made).toMatchObject({
      ...{ name: "O'Neil <b>", customerId, customerName: 'Woodruff', notes: 'two\nlines' },
      ...{ version: 1, coded: false, traceability: 'batch', returnChance: 'maybe', active: true },
      ...{ twoPersons: false },
      ...{ aliases: [], revisions: [], lastMade: [], usualQuantity: null },
      ...{ latestRevision: null, releasedRevision: null },
    });
    expect(await part(made.id)).toEqual(made);
  });
  it('changes in the named fields alone and says from what to what', async () => {
    const made = await added({ coded: true, traceability: 'weld' });
    const answer = await office
      .patch(`/api/parts/${made.id}`)
      .send({ name: 'Bracket, left', active: false, expectedVersion: 1 });
    expect(answer.body).toEqual({ ...made, name: 'Bracket, left', active: false, version: 2 });
    const { body } = await office.get(`/api/history/part/${made.id}`);
    expect(body.entries[0]).toMatchObject({
      ...{ type: 'part.changed', actorCode: 'S01' },
      ...{ before: { name: 'Bracket', active: true } },
      ...{ after: { name: 'Bracket, left', active: false } },
    });
  });
  it('answers a stale change with the part as it stands', async () => {
    const made = await added();
    const path = `/api/parts/${made.id}`;
    await office.patch(path).send({ notes: 'first', expectedVersion: 1 }).expect(200);
    const late = await office.patch(path).send({ notes: 'second', expectedVersion: 1 });
    expect([late.status, late.body.code]).toEqual([409, 'STALE']);
    expect(late.body.current).toMatchObject({ id: made.id, version: 2, notes: 'first' });
    expect((await part(made.id)).notes).toBe('first');
  });
  it.each([
    ['another number in other case', { number: 'dup-1' }, 'DUP-1'],
    ['an alias of another part', { number: 'DUP 2' }, 'DUP-1'],
  ])('does not take %s', async (_case, body, owner) => {
    if ((await found('DUP-1')).length === 0) await added({ number: 'DUP-1' }, ['dup/2']);
    const made = await added();
    for (const answer of [
      await office.post('/api/parts').send({ name: 'Again', ...body }),
      await office.patch(`/api/parts/${made.id}`).send({ ...body, expectedVersion: 1 }),
    ]) {
      expect([answer.status, answer.body.code]).toEqual([409, 'DUPLICATE']);
      expect(answer.body.message).toContain(`part ${owner} (Bracket)`);
      expect(answer.body.current).toMatchObject({ number: owner });
    }
  });
  it('may differ from another number in its dashes alone', async () => {
    await added({ number: 'DASH-1-11' });
    await added({ number: 'DASH-11-1' });
    expect(await found('DASH-11-1')).toEqual(['DASH-1-11', 'DASH-11-1']);
  });
  it('belongs to a customer on file', async () => {
    const made = await added();
    for (const answer of [
      await office.post('/api/parts').send({ number: 'C-1', name: 'C', customerId: unknownId }),
      await office
        .patch(`/api/parts/${made.id}`)
        .send({ customerId: unknownId, expectedVersion: 1 }),
    ]) {
      expect([answer.status, answer.body.fields[0].field]).toEqual([404, 'body.customerId']);
    }
  });
  it.each([
    ['control characters in the name', { name: 'Bracket\u0001' }, 'body.name'],
    ['a name that is too long', { name: 'x'.repeat(121) }, 'body.name'],
    ['notes that are too long', { notes: 'x'.repeat(2001) }, 'body.notes'],
  ])('refuses %s', async (_case, changes, field) => {
    const answer = await office.post('/api/parts').send({ number: 'R-1', name: 'R', ...changes });
    expect([answer.status, answer.body.fields[0].field]).toEqual([400, field]);
  });
  it('is told apart from one that does not exist', async () => {
    for (const answer of [
      await office.get(`/api/parts/${unknownId}`),
      await office.patch(`/api/parts/${unknownId}`).send({ notes: '', expectedVersion: 1 }),
      await alsoKnownAs(unknownId, 'nobody'),
      await office.delete(`/api/parts/${unknownId}/aliases/${unknownId}`),
    ]) {
      expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
    }
  });
});

describe('an alias', () => {
  it('is kept as typed, with the customer who says it, until it is removed', async () => {
    const { id: customerId } = await addCustomer(shop, 'Bracken');
    const made = await added();
    const answer = await alsoKnownAs(made.id, "O'Neil <b> 7/8", customerId);
    expect(answer.body.aliasRows).toEqual([
      { id: expect.any(String), alias: "O'Neil <b> 7/8", customerId, customerName: 'Bracken' },
    ]);
    expect(await found('oneil b 78')).toEqual([made.number]);
    const { id } = answer.body.aliasRows[0];
    const gone = await office.delete(`/api/parts/${made.id}/aliases/${id}`);
    expect(gone.body.aliases).toEqual([]);
    expect(await found('oneil b 78')).toEqual([]);
    const again = await office.delete(`/api/parts/${made.id}/aliases/${id}`);
    expect([again.status, again.body.code]).toEqual([404, 'NOT_FOUND']);
  });
  it('of another part is not removed by way of this one', async () => {
    const other = await added({}, ['stays']);
    const made = await added();
    const { id } = (await part(other.id)).aliasRows[0] ?? { id: '' };
    await office.delete(`/api/parts/${made.id}/aliases/${id}`).expect(404);
    expect((await part(other.id)).aliases).toEqual(['stays']);
  });
  it.each([
    ["another part's number", 'own.1', 'the number of part OWN-1 (Bracket)'],
    ["another part's alias", 'OWN 2', 'an alias (own-2) of part OWN-1 (Bracket)'],
  ])('is not %s', async (_case, alias, words) => {
    if ((await found('OWN-1')).length === 0) await added({ number: 'OWN-1' }, ['own-2']);
    const answer = await alsoKnownAs((await added()).id, alias);
    expect([answer.status, answer.body.code]).toEqual([409, 'DUPLICATE']);
    expect(answer.body.message).toContain(words);
    expect(answer.body.fields[0]).toMatchObject({ field: 'body.alias', given: alias });
    expect(answer.body.current).toMatchObject({ number: 'OWN-1', partId: expect.any(String) });
  });
  it('is not said twice of one part, nor empty of letters and digits', async () => {
    const made = await added({}, ['twice 1']);
    const twice = await alsoKnownAs(made.id, 'Twice-1');
    expect([twice.status, twice.body.code]).toEqual([409, 'DUPLICATE']);
    const dots = await alsoKnownAs(made.id, '...');
    expect([dots.status, dots.body.fields[0].field]).toEqual([400, 'body.alias']);
    const customer = await alsoKnownAs(made.id, 'for nobody', unknownId);
    expect([customer.status, customer.body.fields[0].field]).toEqual([404, 'body.customerId']);
  });
});
