import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { openLive, sessionCookie } from '../support/live.js';

describe('the live stream', () => {
  let shop: TestShop;
  let cookie: string;
  beforeAll(async () => {
    shop = await startTestShop();
    cookie = await sessionCookie(shop, 'office');
  });
  afterAll(async () => shop.close());

  const write = async (subjectId: string) =>
    shop.context.uow.write(shop.actor('office'), async (unit) => {
      unit.append({ type: 'job.noted', subjectType: 'job', subjectId, after: { price: 'secret' } });
    });
  const lastSeq = async () => shop.context.stream.lastSeq();

  it('gives what came after the number last seen, then goes on live, without gap or double', async () => {
    for (let n = 0; n < 30; n += 1) await write(`before-${n}`);
    const from = (await lastSeq()) - 20;
    const writes = Promise.all(Array.from({ length: 200 }, async (_, n) => write(`during-${n}`)));
    const client = await openLive(shop, { cookie, lastEventId: String(from) });
    await writes;
    await write('the last one');
    const last = await lastSeq();
    await client.until(last);
    expect(client.contentType).toBe('text/event-stream');
    expect(client.events.map((event) => event.seq)).toEqual(
      Array.from({ length: last - from }, (_, n) => from + 1 + n),
    );
    client.close();
    await client.ended;
  });

  it('carries what to fetch again, and nothing of what was written', async () => {
    const client = await openLive(shop, { cookie });
    await write('thin');
    await client.until(await lastSeq());
    expect(client.events).toEqual([
      {
        seq: await lastSeq(),
        type: 'job.noted',
        subjectType: 'job',
        subjectId: 'thin',
        version: null,
        cellId: null,
      },
    ]);
    client.close();
  });

  it('carries nothing of a write that failed', async () => {
    const client = await openLive(shop, { cookie });
    const failing = shop.context.uow.write(shop.actor('office'), async (unit) => {
      unit.append({ type: 'job.noted', subjectType: 'job', subjectId: 'never' });
      throw new Error('changed my mind');
    });
    await expect(failing).rejects.toThrow('changed my mind');
    await write('after the failure');
    await client.until(await lastSeq());
    expect(client.events.map((event) => event.subjectId)).toEqual(['after the failure']);
    client.close();
  });

  it('needs a session or a registered tablet', async () => {
    expect((await openLive(shop)).status).toBe(401);
    expect((await openLive(shop, { cookie: 'tackboard_session=made-up' })).status).toBe(401);
    const device = await shop.as('manager');
    const reply = await device
      .post('/api/tablets')
      .send({ name: 'R1', cellId: shop.cells.R1.id })
      .expect(200);
    const [tablet] = reply.headers['set-cookie'] as unknown as string[];
    const client = await openLive(shop, { cookie: (tablet ?? '').split(';')[0] });
    expect(client.status).toBe(200);
    client.close();
  });

  it.each(['x', '-1', '1.5', '1e3', '9'.repeat(16)])(
    'is refused after a number that is none: %s',
    async (lastEventId) => {
      expect((await openLive(shop, { cookie, lastEventId })).status).toBe(400);
    },
  );

  it('goes on from now when the number seen lies ahead, as after a restored copy', async () => {
    for (const lastEventId of [String((await lastSeq()) + 1000), '999999999999999']) {
      const client = await openLive(shop, { cookie, lastEventId });
      await write('after the copy');
      await client.until(await lastSeq());
      expect(client.events.map((event) => event.subjectId)).toEqual(['after the copy']);
      client.close();
      await client.ended;
    }
  });

  it('takes six screens per session, and forgets those that were closed', async () => {
    const own = await sessionCookie(shop, 'qa');
    for (let n = 0; n < 10; n += 1) {
      const client = await openLive(shop, { cookie: own });
      expect(client.status).toBe(200);
      client.close();
      await client.ended;
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    for (let n = 0; n < 10; n += 1)
      expect((await openLive(shop, { cookie: own, lastEventId: 'x' })).status).toBe(400);
    const six = [];
    for (let n = 0; n < 6; n += 1) six.push(await openLive(shop, { cookie: own }));
    expect(six.map((client) => client.status)).toEqual([200, 200, 200, 200, 200, 200]);
    expect((await openLive(shop, { cookie: own })).status).toBe(429);
    for (const client of six) client.close();
  });

  it('is opened, not asked about', async () => {
    await shop.stranger().head('/api/stream').set('Cookie', cookie).timeout(2_000).expect(404);
  });

  it('ends for everybody when the service stops', async () => {
    const closing = await startTestShop();
    const client = await openLive(closing, { cookie: await sessionCookie(closing, 'office') });
    const began = performance.now();
    await closing.close();
    await client.ended;
    expect(performance.now() - began).toBeLessThan(3_000);
  });
});
