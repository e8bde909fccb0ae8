import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';

describe('a command with an Idempotency-Key', () => {
  let shop: TestShop;
  let manager: Agent;
  beforeAll(async () => {
    shop = await startTestShop();
    manager = await shop.as('manager');
  });
  afterAll(async () => shop.close());

  const add = (key: string, code: string, agent = manager) =>
    agent
      .post('/api/people')
      .set('Idempotency-Key', key)
      .send({ code, name: `Person ${code}`, role: 'welder' });
  const onFile = async (code: string) =>
    shop.context.database.reader.person.count({ where: { code } });
  const eventsOf = async (id: string) =>
    shop.context.database.reader.event.count({ where: { subjectId: id } });

  it('gets the first answer again, and nothing happens twice', async () => {
    const first = await add('add-w50-once', 'W50').expect(200);
    const again = await add('add-w50-once', 'W50').expect(200);
    expect(again.body).toEqual(first.body);
    expect(await onFile('W50')).toBe(1);
    expect(await eventsOf((first.body as { id: string }).id)).toBe(1);
  });

  it('is done once when twenty repeats arrive together', async () => {
    const replies = await Promise.all(
      Array.from({ length: 20 }, async () => add('add-w51-once', 'W51')),
    );
    expect(replies.map((reply) => reply.status)).toEqual(Array.from({ length: 20 }, () => 200));
    expect(new Set(replies.map((reply) => reply.text)).size).toBe(1);
    expect(await eventsOf((replies[0]?.body as { id: string }).id)).toBe(1);
  });

  it('still gets its first answer when the row was changed since', async () => {
    const first = await add('add-w52-once', 'W52').expect(200);
    const { id } = first.body as { id: string };
    await manager
      .patch(`/api/people/${id}`)
      .send({ expectedVersion: 1, name: 'Renamed' })
      .expect(200);
    expect((await add('add-w52-once', 'W52').expect(200)).body).toEqual(first.body);
  });

  it('is refused when the key was used for something else', async () => {
    await add('add-w53-once', 'W53').expect(200);
    const other = await add('add-w53-once', 'W54').expect(409);
    expect(other.body).toMatchObject({
      code: 'DUPLICATE',
      fields: [{ field: 'header.idempotency-key' }],
    });
    expect(await onFile('W54')).toBe(0);
    const elsewhere = await manager
      .post('/api/cells')
      .set('Idempotency-Key', 'add-w53-once')
      .send({
        code: 'R9',
        name: 'Robot',
        kind: 'robot',
        processes: ['135'],
        mechanisation: 'automatic',
      });
    expect(elsewhere.body).toMatchObject({ code: 'DUPLICATE' });
  });

  it('may be tried again after a refusal, which is not kept', async () => {
    await add('add-w50-again', 'W50').expect(409);
    const { id, version } = (await shop.context.database.reader.person.findUnique({
      where: { code: 'W50' },
    })) ?? { id: '', version: 0 };
    await manager
      .patch(`/api/people/${id}`)
      .send({ expectedVersion: version, code: 'W50-old' })
      .expect(200);
    await add('add-w50-again', 'W50').expect(200);
  });

  it('belongs to the person who sent it', async () => {
    await add('shared-key-1', 'W55').expect(200);
    const office = await shop.as('office');
    await add('shared-key-1', 'W55', office).expect(403);
  });

  it.each(['short', 'with space in it', 'x'.repeat(81)])(
    'is refused with a key of another form: %s',
    async (key) => {
      const reply = await add(key, 'W56').expect(400);
      expect(reply.body).toMatchObject({
        code: 'INVALID',
        fields: [{ field: 'header.idempotency-key', given: key }],
      });
      expect(await onFile('W56')).toBe(0);
    },
  );
});
