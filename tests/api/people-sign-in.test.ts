import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';

const wrong = 'not the right password';

describe('signing in with a password', () => {
  let shop: TestShop;
  beforeAll(async () => {
    shop = await startTestShop();
  });
  // Every test begins with no wait left over at this device.
  afterEach(async () => {
    wait(3600);
    await shop.as('manager');
  });
  afterAll(async () => shop.close());

  const wait = (seconds: number) =>
    shop.clock.set(new Date(shop.clock.now().getTime() + seconds * 1000).toISOString());
  const signIn = (code: string, password: string, agent: Agent = shop.stranger()) =>
    agent.post('/api/session').send({ code, password });
  const personOf = async (agent: Agent) =>
    ((await agent.get('/api/session').expect(200)).body as { person: { code: string } | null })
      .person;

  it('shows who is in, and out again after signing out', async () => {
    const agent = await shop.as('office');
    expect(await personOf(agent)).toMatchObject({ code: 'S01', role: 'office' });
    await agent.delete('/api/session').expect(200);
    expect(await personOf(agent)).toBeNull();
    await agent.get('/api/people').expect(401);
  });

  it('answers the same to an unknown code and a wrong password', async () => {
    const known = await signIn('S01', wrong).expect(401);
    const unknown = await signIn('W99', wrong).expect(401);
    expect(known.body).toMatchObject({ code: 'WRONG_CREDENTIALS', fields: [], current: null });
    expect({ ...unknown.body, requestId: '' }).toEqual({ ...known.body, requestId: '' });
  });

  it('keeps the session in a cookie that no script reads and no other page sends', async () => {
    const reply = await signIn('S01', testPassword).expect(200);
    const [cookie] = reply.headers['set-cookie'] as unknown as string[];
    expect(cookie).toMatch(/^tackboard_session=[\w-]{43};/);
    expect(cookie).toMatch(/; HttpOnly/);
    expect(cookie).toMatch(/; SameSite=Strict/);
    expect(cookie).toMatch(/; Path=\//);
    expect(reply.headers['cache-control']).toBe('no-store');
  });

  it('takes no made-up or ended session token', async () => {
    const agent = shop.stranger();
    const reply = await signIn('S01', testPassword).expect(200);
    const [cookie] = reply.headers['set-cookie'] as unknown as string[];
    const token = (cookie ?? '').split(';')[0] ?? '';
    await agent.get('/api/people').set('Cookie', token).expect(200);
    await agent.get('/api/people').set('Cookie', `${token}x`).expect(401);
    await agent.delete('/api/session').set('Cookie', token).expect(200);
    await agent.get('/api/people').set('Cookie', token).expect(401);
  });

  // Five tries, then 30 s, doubled with each further failure: our own rule after NIST SP 800-63B, 5.2.2 (limited tries).
  it('makes guessing wait, longer each time, and even the right password waits', async () => {
    for (let n = 0; n < 5; n += 1) await signIn('W07', wrong).expect(401);
    const locked = await signIn('W07', testPassword).expect(429);
    expect(locked.body).toMatchObject({ code: 'TOO_MANY_ATTEMPTS' });
    expect((locked.body as { message: string }).message).toContain('Wait 30 s');
    wait(29);
    await signIn('W07', testPassword).expect(429);
    wait(1);
    await signIn('W07', wrong).expect(401);
    const longer = await signIn('W07', testPassword).expect(429);
    expect((longer.body as { message: string }).message).toContain('Wait 60 s');
    wait(60);
    await signIn('W07', testPassword).expect(200);
    for (let n = 0; n < 4; n += 1) await signIn('W07', wrong).expect(401);
    await signIn('W07', testPassword).expect(200);
  });

  it('lets five of fifty simultaneous guesses through to the check', async () => {
    const replies = await Promise.all(Array.from({ length: 50 }, async () => signIn('Q02', wrong)));
    const count = (status: number) => replies.filter((reply) => reply.status === status).length;
    expect({ checked: count(401), turnedAway: count(429) }).toEqual({ checked: 5, turnedAway: 45 });
    await signIn('Q02', testPassword).expect(429);
  });

  it('makes a device wait that tries one code after the other', async () => {
    for (const code of ['A1', 'A2', 'A3', 'A4', 'A5']) await signIn(code, wrong).expect(401);
    await signIn('S01', testPassword).expect(429);
  });

  it('takes odd characters in code and password for what they are: wrong', async () => {
    for (const code of ['\u0000', '\ud800', "' OR 1=1 --", '%', 'ẞ'])
      await signIn(code, '\u0000\ud800')
        .expect(401)
        .then(() => wait(3600));
  });

  it('ends an office session after twelve idle hours', async () => {
    const agent = await shop.as('office');
    wait(11 * 3600);
    expect(await personOf(agent)).not.toBeNull();
    wait(11 * 3600);
    expect(await personOf(agent)).not.toBeNull();
    wait(12 * 3600);
    expect(await personOf(agent)).toBeNull();
  });

  it('changes the own password, and every other session of that person ends', async () => {
    const here = await shop.as('coordinator');
    const elsewhere = await shop.as('coordinator');
    const change = (oldPassword: string, newPassword: string) =>
      here.post('/api/session/password').send({ oldPassword, newPassword });
    const refused = await change(wrong, 'another long password').expect(401);
    expect(refused.body).toMatchObject({ code: 'WRONG_CREDENTIALS' });
    expect(await personOf(elsewhere)).not.toBeNull();
    await change(testPassword, 'another long password').expect(200);
    expect(await personOf(elsewhere)).toBeNull();
    expect(await personOf(here)).toMatchObject({ code: 'C01' });
    await signIn('C01', testPassword).expect(401);
    await signIn('C01', 'another long password').expect(200);
  });

  it('lets the manager see and end the sessions of a person', async () => {
    const manager = await shop.as('manager');
    const qa = await shop.as('qa');
    const { id } = shop.people.qa;
    const { body } = await manager.get(`/api/people/${id}/sessions`).expect(200);
    const [session] = (body as { sessions: { id: string; current: boolean }[] }).sessions;
    expect(session).toMatchObject({ tabletName: null, current: false });
    await manager.delete(`/api/sessions/${session?.id}`).expect(200);
    expect(await personOf(qa)).toBeNull();
    await manager.delete(`/api/sessions/${session?.id}`).expect(404);
  });

  it('is over at once for a person who left', async () => {
    const manager = await shop.as('manager');
    const welder = await shop.as('welder');
    const { id } = shop.people.welder;
    const setActive = async (active: boolean) => {
      const { version } = await shop.context.database.reader.person.findUniqueOrThrow({
        where: { id },
      });
      await manager
        .patch(`/api/people/${id}`)
        .send({ expectedVersion: version, active })
        .expect(200);
    };
    await setActive(false);
    expect(await personOf(welder)).toBeNull();
    expect((await signIn('W07', testPassword).expect(401)).body).toMatchObject({
      code: 'WRONG_CREDENTIALS',
    });
    await setActive(true);
    expect(await personOf(welder)).toBeNull();
    await signIn('W07', testPassword).expect(200);
  });

  it('is over at once when the manager sets another password', async () => {
    const manager = await shop.as('manager');
    const office = await shop.as('office');
    await manager
      .post(`/api/people/${shop.people.office.id}/password`)
      .send({ password: testPassword })
      .expect(200);
    expect(await personOf(office)).toBeNull();
  });
});
