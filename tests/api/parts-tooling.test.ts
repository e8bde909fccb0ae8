import type { BodyOf, parts, ReplyOf } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';

type Fixture = ReplyOf<typeof parts.addFixture>;
type Program = ReplyOf<typeof parts.addProgram>;

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let office: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  office = await shop.as('office');
});
afterAll(async () => shop.close());

let serial = 0;
async function fixture(changes: object = {}): Promise<Fixture> {
  const body = { code: `FX-${(serial += 1)}`, place: 'B2-3', ...changes };
  const answer = await office.post('/api/fixtures').send(body);
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body;
}
const programBody = (): BodyOf<typeof parts.addProgram> => ({
  ...{ name: 'P-143', revision: '4', cellId: shop.cells.R1.id, author: 'Olaf Tremmel' },
  ...{ writtenOn: '2026-03-14', backupPlace: 'shelf 2', notes: '' },
});

describe('doors', () => {
  let made: Fixture;
  beforeAll(async () => {
    made = await fixture();
  });
  const doors = () => shop;
  firstFour('fixtures', doors, { method: 'get', path: () => '/api/fixtures', allowed: 'welder' });
  firstFour('programs', doors, { method: 'get', path: () => '/api/programs', allowed: 'welder' });
  firstFour('add a fixture', doors, {
    method: 'post',
    path: () => '/api/fixtures',
    body: () => ({ code: 'DOOR-1', place: 'B1' }),
    allowed: 'welder',
    malformed: { body: { code: 'DOOR-1', place: '' }, field: 'body.place' },
  });
  firstFour('change a fixture', doors, {
    method: 'patch',
    path: () => `/api/fixtures/${made.id}`,
    body: () => ({ condition: 'repair', expectedVersion: 1 }),
    allowed: 'welder',
    malformed: { body: { condition: 'bent', expectedVersion: 1 }, field: 'body.condition' },
  });
  firstFour('record a program', doors, {
    method: 'post',
    path: () => '/api/programs',
    body: () => ({ ...programBody(), name: 'DOOR' }),
    allowed: 'welder',
    malformed: { body: { name: 'DOOR' }, field: 'body.writtenOn' },
  });
});

describe('a fixture', () => {
  it('changes in the named fields alone', async () => {
    const made = await fixture({
      condition: 'repair',
      notes: 'pin bent',
      lastCheckOn: '2026-09-30',
    });
    const answer = await office
      .patch(`/api/fixtures/${made.id}`)
      .send({ place: "O'Neil <b> 4", expectedVersion: 1 });
    expect(answer.body).toEqual({ ...made, place: "O'Neil <b> 4", version: 2 });
    const { fixtures } = (await office.get('/api/fixtures')).body;
    expect(fixtures).toContainEqual(answer.body);
    const { body } = await office.get(`/api/history/fixture/${made.id}`);
    expect(body.entries[0]).toMatchObject({
      type: 'fixture.changed',
      before: { place: 'B2-3' },
      after: { place: "O'Neil <b> 4" },
    });
  });
  it('answers a stale change with the row as it stands', async () => {
    const made = await fixture();
    const path = `/api/fixtures/${made.id}`;
    await office.patch(path).send({ condition: 'missing', expectedVersion: 1 }).expect(200);
    const late = await office.patch(path).send({ place: 'A1', expectedVersion: 1 });
    expect([late.status, late.body.code]).toEqual([409, 'STALE']);
    expect(late.body.current).toMatchObject({ condition: 'missing', place: 'B2-3', version: 2 });
  });
  it('has a code of its own', async () => {
    const [one, two] = [await fixture(), await fixture()];
    for (const answer of [
      await office.post('/api/fixtures').send({ code: one.code, place: 'A1' }),
      await office.patch(`/api/fixtures/${two.id}`).send({ code: one.code, expectedVersion: 1 }),
    ]) {
      expect([answer.status, answer.body.code]).toEqual([409, 'DUPLICATE']);
      expect(answer.body.fields[0]).toMatchObject({ field: 'body.code', given: one.code });
    }
  });
  it('is told apart from one that does not exist', async () => {
    const answer = await office
      .patch(`/api/fixtures/${unknownId}`)
      .send({ place: 'A1', expectedVersion: 1 });
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
  });
  it.each([
    ['control characters', { notes: 'a\u0000b' }, 'body.notes'],
    ['too much text', { place: 'x'.repeat(61) }, 'body.place'],
  ])('refuses %s', async (_case, changes, field) => {
    const answer = await office
      .post('/api/fixtures')
      .send({ code: 'FX-X', place: 'A1', ...changes });
    expect([answer.status, answer.body.fields[0].field]).toEqual([400, field]);
  });
});

describe('a program', () => {
  const record = async (changes: object = {}) =>
    office.post('/api/programs').send({ ...programBody(), ...changes });

  it('is recorded once by name, revision and cell', async () => {
    const made = await record();
    expect(made.body).toMatchObject({ ...programBody(), cellCode: 'R1', version: 1 });
    const again = await record({ author: 'Somebody else' });
    expect([again.status, again.body.code]).toEqual([409, 'DUPLICATE']);
    expect(again.body.fields[0]).toMatchObject({ field: 'body.revision', given: '4' });
    expect((await record({ revision: '5' })).status).toBe(200);
    expect((await record({ cellId: shop.cells.M1.id })).status).toBe(200);
    const { programs } = (await office.get('/api/programs')).body;
    const own = programs.filter(({ name }: Program) => name === 'P-143');
    expect(own.map(({ cellCode, revision }: Program) => [cellCode, revision])).toEqual(
      expect.arrayContaining([
        ['M1', '4'],
        ['R1', '4'],
        ['R1', '5'],
      ]),
    );
  });
  it('belongs to a cell on file', async () => {
    const answer = await record({ cellId: unknownId });
    expect([answer.status, answer.body.fields[0].field]).toEqual([404, 'body.cellId']);
  });
});
