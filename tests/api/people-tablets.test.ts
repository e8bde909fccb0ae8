import type { Person } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { monday, startTestShop, type Agent, type TestShop } from '../support/app.js';
import { unknownId } from '../support/guarded.js';

describe('a cell tablet', () => {
  let shop: TestShop;
  let manager: Agent;
  beforeAll(async () => {
    shop = await startTestShop();
    manager = await shop.as('manager');
  });
  afterAll(async () => shop.close());

  let elapsedS = 0;
  const wait = (seconds: number) => {
    elapsedS += seconds;
    shop.clock.set(new Date(Date.parse(monday) + elapsedS * 1000).toISOString());
  };
  const pinOf = async (person: Person) =>
    ((await manager.post(`/api/people/${person.id}/pin`).expect(200)).body as { pin: string }).pin;
  const enter = (agent: Agent, code: string, pin: string) =>
    agent.post('/api/session/pin').send({ code, pin });
  const personOf = async (agent: Agent) =>
    ((await agent.get('/api/session').expect(200)).body as { person: { code: string } | null })
      .person;
  const cookieOf = (reply: { headers: unknown }) =>
    ((reply.headers as { 'set-cookie': string[] })['set-cookie'][0] ?? '').split(';')[0] ?? '';

  it('is registered by the manager, keeps its token in its cookie, and is listed', async () => {
    const device = await shop.as('manager');
    const reply = await device
      .post('/api/tablets')
      .send({ name: 'At the robot', cellId: shop.cells.R1.id })
      .expect(200);
    expect(reply.body).toMatchObject({ name: 'At the robot', cellCode: 'R1', revokedAt: null });
    const [cookie] = reply.headers['set-cookie'] as unknown as string[];
    expect(cookie).toMatch(/^tackboard_tablet=[\w-]{43}; Max-Age=31536000/);
    expect(cookie).toMatch(/; HttpOnly/);
    expect(cookie).toMatch(/; SameSite=Strict/);
    const token = cookieOf(reply).split('=')[1] ?? 'none';
    expect(JSON.stringify(reply.body)).not.toContain(token);
    const { body } = await manager.get('/api/tablets').expect(200);
    expect((body as { tablets: object[] }).tablets).toContainEqual(reply.body);
  });

  it('belongs to a cell that exists', async () => {
    const reply = await manager
      .post('/api/tablets')
      .send({ name: 'Nowhere', cellId: unknownId })
      .expect(404);
    expect(reply.body).toMatchObject({ code: 'NOT_FOUND', fields: [{ field: 'body.cellId' }] });
  });

  it('shows the names of those who weld and have a PIN, and no more', async () => {
    const tablet = await shop.tablet('R1');
    await pinOf(shop.people.welder);
    await pinOf(shop.people.office);
    const { body } = await tablet.get('/api/roster').expect(200);
    expect(body).toEqual({ people: [{ code: 'W07', name: 'Wanda Kestelholm' }] });
  });

  it('is the only place where a PIN counts', async () => {
    const pin = await pinOf(shop.people.welder);
    expect((await enter(shop.stranger(), 'W07', pin).expect(401)).body).toMatchObject({
      code: 'NOT_SIGNED_IN',
    });
    const signedInDevice = await shop.as('office');
    await enter(signedInDevice, 'W07', pin).expect(401);
    const reply = await enter(await shop.tablet('R1'), 'W07', pin).expect(200);
    expect(reply.body).toMatchObject({ person: { code: 'W07' }, tablet: { cellCode: 'R1' } });
  });

  it('takes the PIN last issued: six digits, nobody else’s', async () => {
    const old = await pinOf(shop.people.welder);
    const pin = await pinOf(shop.people.welder);
    const tablet = await shop.tablet('R1');
    expect(pin).toMatch(/^\d{6}$/);
    if (old !== pin) await enter(tablet, 'W07', old).expect(401);
    await enter(tablet, 'Q02', pin).expect(401);
    await enter(tablet, 'W07', pin).expect(200);
  });

  it('makes PIN guessing wait there, and lets other tablets go on', async () => {
    const pin = await pinOf(shop.people.welder);
    const tablet = await shop.tablet('R1');
    const wrong = pin === '000000' ? '000001' : '000000';
    const replies = await Promise.all(
      Array.from({ length: 50 }, async () => enter(tablet, 'W07', wrong)),
    );
    expect(replies.filter((reply) => reply.status === 401)).toHaveLength(5);
    expect(replies.filter((reply) => reply.status === 429)).toHaveLength(45);
    await enter(tablet, 'W07', pin).expect(429);
    const qaPin = await pinOf(shop.people.qa);
    await enter(tablet, 'Q02', qaPin).expect(429);
    await enter(await shop.tablet('M1'), 'Q02', qaPin).expect(200);
    wait(30);
    await enter(tablet, 'W07', pin).expect(200);
  });

  // Ten idle minutes: our own rule for a screen that is shared.
  it('signs a person out ten minutes after the last act', async () => {
    const tablet = await shop.atTablet('R1', shop.people.welder);
    // Counts as an act of the person even though it is refused.
    const act = async () =>
      tablet.post('/api/people').send({ code: 'X', name: 'X', role: 'qa' }).expect(403);
    wait(9 * 60);
    await act();
    wait(9 * 60);
    expect(await personOf(tablet)).toMatchObject({ code: 'W07' });
    await act();
    wait(10 * 60);
    expect(await personOf(tablet)).toBeNull();
    await tablet.get('/api/people').expect(401);
    await tablet.get('/api/roster').expect(200);
  });

  it('signs a person out although the screen keeps loading what is new', async () => {
    const tablet = await shop.atTablet('R1', shop.people.welder);
    for (let minute = 0; minute < 9; minute += 1) {
      wait(60);
      expect(await personOf(tablet)).not.toBeNull();
    }
    wait(60);
    expect(await personOf(tablet)).toBeNull();
  });

  it('holds its PIN sessions: they are worth nothing on another device', async () => {
    const pin = await pinOf(shop.people.welder);
    const session = cookieOf(await enter(await shop.tablet('R1'), 'W07', pin).expect(200));
    const { body } = await shop.stranger().get('/api/session').set('Cookie', session).expect(200);
    expect(body).toMatchObject({ person: null });
    const device = await shop.as('manager');
    const other = cookieOf(
      await device.post('/api/tablets').send({ name: 'M1', cellId: shop.cells.M1.id }).expect(200),
    );
    const there = await shop
      .stranger()
      .get('/api/session')
      .set('Cookie', `${session}; ${other}`)
      .expect(200);
    expect(there.body).toMatchObject({ person: null, tablet: { cellCode: 'M1' } });
  });

  it('is nobody’s any more once it is withdrawn', async () => {
    const tablet = await shop.atTablet('M1', shop.people.welder);
    const { body } = await tablet.get('/api/session').expect(200);
    const { id } = (body as { tablet: { id: string } }).tablet;
    await manager.delete(`/api/tablets/${id}`).expect(200);
    expect((await tablet.get('/api/session').expect(200)).body).toMatchObject({
      person: null,
      tablet: null,
    });
    await tablet.get('/api/roster').expect(401);
    await manager.delete(`/api/tablets/${id}`).expect(404);
  });
});
