import type { BodyOf, consumables, ReplyOf } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';

type Item = ReplyOf<typeof consumables.addItem>;
type Lot = ReplyOf<typeof consumables.addLot>;
type Load = ReplyOf<typeof consumables.load>;

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let office: Agent;
let welder: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  office = await shop.as('office');
  welder = await shop.as('welder');
});
afterAll(async () => shop.close());

const wire: BodyOf<typeof consumables.addItem> = {
  kind: 'wire',
  designation: 'G3Si1',
  name: 'Solid wire 1.2',
  wireDiameterMm: 1.2,
  unit: 'kg',
};
const lotBody = { number: 'L-1', receivedOn: '2026-10-01', certificate: '3.1', receivedAmount: 15 };

let serial = 0;
async function added(changes: Partial<typeof wire> = {}): Promise<Item> {
  const name = `Wire ${(serial += 1)}`;
  const answer = await office.post('/api/items').send({ ...wire, name, ...changes });
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body;
}
async function received(item: Item, receivedAmount = 15): Promise<Lot> {
  const number = `L-${(serial += 1)}`;
  const answer = await office
    .post('/api/lots')
    .send({ ...lotBody, number, receivedAmount, itemId: item.id });
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body;
}
const load = async (lotId: string, amount: number, cellId = shop.cells.R1.id) =>
  welder.post(`/api/cells/${cellId}/loads`).send({ lotId, amount });
const leftOf = async (lot: Lot): Promise<number> =>
  (await office.get('/api/lots')).body.lots.find((each: Lot) => each.id === lot.id).leftAmount;
const loadedAt = async (cellId: string): Promise<Load[]> =>
  (await office.get('/api/loads')).body.loads.filter((each: Load) => each.cellId === cellId);

describe('doors', () => {
  let item: Item;
  let lot: Lot;
  beforeAll(async () => {
    item = await added();
    lot = await received(item);
  });
  const doors = () => shop;
  firstFour('items', doors, { method: 'get', path: () => '/api/items', allowed: 'welder' });
  firstFour('lots', doors, { method: 'get', path: () => '/api/lots', allowed: 'welder' });
  firstFour('loads', doors, { method: 'get', path: () => '/api/loads', allowed: 'welder' });
  firstFour('add an item', doors, {
    method: 'post',
    path: () => '/api/items',
    body: () => wire,
    allowed: 'qa',
    refused: 'welder',
    malformed: { body: { ...wire, unit: 'lb' }, field: 'body.unit' },
  });
  firstFour('receive a lot', doors, {
    method: 'post',
    path: () => '/api/lots',
    body: () => ({ ...lotBody, itemId: item.id }),
    allowed: 'office',
    refused: 'welder',
    malformed: {
      body: { ...lotBody, itemId: unknownId, receivedOn: '2026-02-31' },
      field: 'body.receivedOn',
    },
  });
  firstFour('enter the certificate of a lot', doors, {
    method: 'patch',
    path: () => `/api/lots/${lot.id}`,
    body: () => ({ certificate: '3.1 A-12', expectedVersion: 1 }),
    allowed: 'office',
    refused: 'welder',
    malformed: { body: { certificate: 7, expectedVersion: 1 }, field: 'body.certificate' },
  });
  firstFour('load a lot', doors, {
    method: 'post',
    path: () => `/api/cells/${shop.cells.M1.id}/loads`,
    body: () => ({ lotId: lot.id, amount: 5 }),
    allowed: 'welder',
    malformed: { body: { lotId: unknownId, amount: -1 }, field: 'body.amount' },
  });
});

describe('items and lots', () => {
  it('take the certificate of a lot afterwards, once for each state of the lot', async () => {
    const lot = await received(await added());
    const enter = async (certificate: string | null, expectedVersion: number, id = lot.id) =>
      office.patch(`/api/lots/${id}`).send({ certificate, expectedVersion });
    const first = await enter('3.1 B-7', lot.version);
    expect(first.body).toEqual({ ...lot, certificate: '3.1 B-7', version: lot.version + 1 });
    const late = await enter('3.1 C-9', lot.version);
    expect([late.status, late.body.code]).toEqual([409, 'STALE']);
    expect(late.body.current).toEqual(first.body);
    expect((await enter('3.1', 1, unknownId)).status).toBe(404);
    const { entries } = (await office.get(`/api/history/lot/${lot.id}`)).body;
    expect(entries[0]).toMatchObject({
      ...{ type: 'lot.changed', actorCode: 'S01' },
      ...{ before: { certificate: '3.1' }, after: { certificate: '3.1 B-7' } },
    });
  });
  it('sum the stock of an item from what its lots have left', async () => {
    const item = await added();
    expect(item.stock).toBe(0);
    await received(item, 15);
    const lot = await received(item, 7.5);
    await load(lot.id, 2.5);
    const { items } = (await office.get('/api/items')).body;
    expect(items.find((each: Item) => each.id === item.id).stock).toBe(20);
  });
  it('keep names as typed and refuse them twice', async () => {
    const name = "O'Neil <b> 1.0";
    expect((await added({ name })).name).toBe(name);
    const again = await office.post('/api/items').send({ ...wire, name });
    expect([again.status, again.body.code]).toEqual([409, 'DUPLICATE']);
    expect(again.body.fields[0]).toMatchObject({ field: 'body.name', given: name });
    expect((await office.post('/api/items').send({ ...wire, name, kind: 'tip' })).status).toBe(200);
  });
  it('refuse the same lot number of one item, not of another', async () => {
    const item = await added();
    const body = { ...lotBody, number: 'L-900', itemId: item.id };
    expect((await office.post('/api/lots').send(body)).status).toBe(200);
    const again = await office.post('/api/lots').send(body);
    expect([again.status, again.body.code]).toEqual([409, 'DUPLICATE']);
    const other = await office.post('/api/lots').send({ ...body, itemId: (await added()).id });
    expect(other.status).toBe(200);
  });
  it('refuse a lot of nothing on file', async () => {
    const answer = await office.post('/api/lots').send({ ...lotBody, itemId: unknownId });
    expect([answer.status, answer.body.fields[0].field]).toEqual([404, 'body.itemId']);
  });
  it.each([
    ['control characters', 'Wire\u0000'],
    ['too much text', 'x'.repeat(81)],
  ])('refuse %s', async (_case, name) => {
    const answer = await office.post('/api/items').send({ ...wire, name });
    expect([answer.status, answer.body.fields[0].field]).toEqual([400, 'body.name']);
  });
});

describe('loading a lot', () => {
  it('takes it from the lot and says who did it and when', async () => {
    const lot = await received(await added());
    const answer = await load(lot.id, 5);
    expect(answer.body).toMatchObject({
      ...{ lotId: lot.id, lotNumber: lot.number, cellCode: 'R1', kind: 'wire', unit: 'kg' },
      ...{ loadedAmount: 5, leftAmount: 5, loadedBy: shop.people.welder.name },
      ...{ loadedAt: shop.clock.now().toISOString(), unloadedAt: null },
    });
    expect(await leftOf(lot)).toBe(10);
  });
  it('gives what is left of the former one of the same kind back to its lot', async () => {
    const item = await added();
    const [former, next] = [await received(item), await received(item)];
    const gas = await received(await added({ kind: 'gas', designation: 'M21', unit: 'l' }), 9000);
    await load(gas.id, 9000);
    await load(former.id, 15);
    await load(next.id, 12);
    expect([await leftOf(former), await leftOf(next), await leftOf(gas)]).toEqual([15, 3, 0]);
    const numbers = (await loadedAt(shop.cells.R1.id)).map(({ lotNumber }) => lotNumber);
    expect(numbers.toSorted()).toEqual([gas.number, next.number].toSorted());
    const { body } = await office.get(`/api/history/lot/${former.id}`);
    expect(body.entries.map((entry: { type: string }) => entry.type)).toEqual([
      'lot.unloaded',
      'lot.loaded',
      'lot.received',
    ]);
  });
  it('takes the very lot that was loaded before again', async () => {
    const lot = await received(await added(), 15);
    await load(lot.id, 15);
    const again = await load(lot.id, 15);
    expect(again.status, again.body.message).toBe(200);
    expect(await leftOf(lot)).toBe(0);
  });
  it('leaves the other cells as they are', async () => {
    const item = await added();
    const [here, there] = [await received(item), await received(item)];
    await load(there.id, 5, shop.cells.M1.id);
    await load(here.id, 5);
    expect((await loadedAt(shop.cells.M1.id)).map(({ lotId }) => lotId)).toContain(there.id);
  });
  it('refuses more than the lot has left, in words, and changes nothing', async () => {
    const item = await added();
    const [former, small] = [await received(item), await received(item, 2)];
    await load(former.id, 15);
    const answer = await load(small.id, 2.1);
    expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
    expect(answer.body.message).toContain(`Lot ${small.number} has 2 kg left`);
    expect(answer.body.fields[0]).toMatchObject({ field: 'body.amount', given: '2.1' });
    expect([await leftOf(former), await leftOf(small)]).toEqual([0, 2]);
  });
  it('adds up without rounding noise: 0.3 less 0.1 still holds 0.2', async () => {
    const lot = await received(await added(), 0.3);
    await load(lot.id, 0.1);
    expect((await load(lot.id, 0.2, shop.cells.M1.id)).status).toBe(200);
    expect(await leftOf(lot)).toBe(0);
  });
  it('refuses nothing, and what is not on file', async () => {
    const lot = await received(await added());
    const nothing = await load(lot.id, 0);
    const noLot = await load(unknownId, 1);
    const noCell = await load(lot.id, 1, unknownId);
    expect([nothing.status, nothing.body.fields[0].field]).toEqual([400, 'body.amount']);
    expect([noLot.status, noLot.body.fields[0].field]).toEqual([404, 'body.lotId']);
    expect([noCell.status, noCell.body.fields[0].field]).toEqual([404, 'params.cellId']);
  });
  it('is told to other areas by cell', async () => {
    const lot = await received(await added());
    await load(lot.id, 1, shop.cells.M1.id);
    const loads = await shop.context.services.consumables.loadsAt(shop.cells.M1.id);
    expect(loads).toEqual(await loadedAt(shop.cells.M1.id));
    expect(loads.map(({ lotId }) => lotId)).toContain(lot.id);
  });
});
