import type { Person } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { unknownId } from '../support/guarded.js';

describe('the people of the shop', () => {
  let shop: TestShop;
  let manager: Agent;
  beforeAll(async () => {
    shop = await startTestShop();
    manager = await shop.as('manager');
  });
  afterAll(async () => shop.close());

  const add = async (code: string, changes: object = {}) =>
    (
      await manager
        .post('/api/people')
        .send({ code, name: `Person ${code}`, role: 'welder', ...changes })
        .expect(200)
    ).body as Person;
  const edit = (person: Pick<Person, 'id' | 'version'>, changes: object) =>
    manager.patch(`/api/people/${person.id}`).send({ expectedVersion: person.version, ...changes });

  it('are added with nothing but what was typed, and listed by code', async () => {
    const added = await add('W20', { name: "O'Neil <b>Torrund</b>", language: 'pl' });
    expect(added).toMatchObject({
      code: 'W20',
      name: "O'Neil <b>Torrund</b>",
      role: 'welder',
      coordinator: false,
      language: 'pl',
      active: true,
      hasPassword: false,
      hasPin: false,
      version: 1,
    });
    const { body } = await manager.get('/api/people').expect(200);
    const codes = (body as { people: Person[] }).people.map((person) => person.code);
    expect(codes).toEqual([...codes].sort());
    expect(codes).toContain('W20');
  });

  it('have a code of their own', async () => {
    await add('W21');
    const other = await add('W22');
    const taken = await manager
      .post('/api/people')
      .send({ code: 'W21', name: 'Another', role: 'qa' })
      .expect(409);
    expect(taken.body).toMatchObject({
      code: 'DUPLICATE',
      fields: [{ field: 'body.code', given: 'W21' }],
    });
    expect((await edit(other, { code: 'W21' }).expect(409)).body).toMatchObject({
      code: 'DUPLICATE',
    });
  });

  it('keep what a change does not name, and the change goes into the history', async () => {
    const before = await add('W23', { language: 'de' });
    const { body: after } = await edit(before, { name: 'Wenke Torrund' }).expect(200);
    expect(after).toEqual({ ...before, name: 'Wenke Torrund', version: 2 });
    const { body } = await manager.get(`/api/history/person/${before.id}`).expect(200);
    expect((body as { entries: unknown[] }).entries[0]).toMatchObject({
      type: 'person.changed',
      actorCode: 'M01',
      before: { name: 'Person W23' },
      after: { name: 'Wenke Torrund' },
    });
  });

  it('have the language that the cells speak to them in, one of those there are', async () => {
    const before = await add('W35');
    expect(before.language).toBe('en');
    const { body: after } = await edit(before, { language: 'es' }).expect(200);
    expect(after).toEqual({ ...before, language: 'es', version: 2 });
    const refused = await edit({ ...before, version: 2 }, { language: 'xx' }).expect(400);
    expect(refused.body).toMatchObject({
      code: 'INVALID',
      fields: [{ field: 'body.language', given: 'xx' }],
    });
  });

  it('are not changed over somebody else’s change: the answer holds the row as it stands', async () => {
    const before = await add('W24');
    await edit(before, { name: 'First' }).expect(200);
    const late = await edit(before, { name: 'Second' }).expect(409);
    expect(late.body).toMatchObject({
      code: 'STALE',
      current: { id: before.id, name: 'First', version: 2 },
      fields: [{ field: 'body.expectedVersion', given: '1', allowed: '2' }],
    });
    expect(JSON.stringify(late.body)).not.toMatch(/hash/i);
  });

  it('are changed by one of many who try at once', async () => {
    const before = await add('W25');
    const replies = await Promise.all(
      Array.from({ length: 20 }, async (_, n) => edit(before, { name: `Name ${n}` })),
    );
    const statuses = replies.map((reply) => reply.status);
    expect(statuses.filter((status) => status === 200)).toHaveLength(1);
    expect(statuses.filter((status) => status === 409)).toHaveLength(19);
  });

  it.each([
    ['patch', `/api/people/${unknownId}`, { expectedVersion: 1 }],
    ['post', `/api/people/${unknownId}/pin`, undefined],
    ['post', `/api/people/${unknownId}/password`, { password: testPassword }],
    ['get', `/api/people/${unknownId}/sessions`, undefined],
    ['delete', `/api/sessions/${unknownId}`, undefined],
    ['delete', `/api/tablets/${unknownId}`, undefined],
  ] as const)('that are unknown answer 404: %s %s', async (method, path, body) => {
    const reply = await manager[method](path).send(body);
    expect(reply.status).toBe(404);
    expect(reply.body).toMatchObject({ code: 'NOT_FOUND' });
    expect((reply.body as { message: string }).message).toContain(unknownId);
  });

  it('always hold one active manager', async () => {
    const { manager: only } = shop.people;
    const { body } = await manager.get('/api/session').expect(200);
    const { version } = (body as { person: Person }).person;
    for (const changes of [{ role: 'office' }, { active: false }]) {
      const refused = await edit({ id: only.id, version }, changes).expect(409);
      expect(refused.body).toMatchObject({ code: 'NOT_NOW' });
    }
    await edit({ id: only.id, version }, { name: 'Marit Oyelund-Brandt' }).expect(200);
  });

  it('hold one manager even when the last two step down at once', async () => {
    const second = await add('M02', { role: 'manager' });
    const first = (
      (await manager.get('/api/people').expect(200)).body as { people: Person[] }
    ).people.find((person) => person.code === 'M01');
    if (first === undefined) throw new Error('M01 is on file');
    const replies = await Promise.all([
      edit(second, { role: 'office' }),
      edit(first, { role: 'office' }),
    ]);
    expect(replies.map((reply) => reply.status).sort()).toEqual([200, 409]);
    const managers = await shop.context.database.reader.person.count({
      where: { role: 'manager', active: true },
    });
    expect(managers).toBe(1);
  });
});
