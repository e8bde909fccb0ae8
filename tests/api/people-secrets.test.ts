import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { unknownId } from '../support/guarded.js';

// OWASP Password Storage Cheat Sheet: argon2id with 19 MiB, two passes, one lane.
const argon2id = /^\$argon2id\$v=19\$m=19456,t=2,p=1\$[\w+/]+\$[\w+/]+$/;

describe('secrets', () => {
  let shop: TestShop;
  let manager: Agent;
  beforeAll(async () => {
    shop = await startTestShop();
    manager = await shop.as('manager');
  });
  afterAll(async () => shop.close());

  it('are on file as argon2id prints, salted one by one', async () => {
    await manager.post(`/api/people/${shop.people.welder.id}/pin`).expect(200);
    const rows = await shop.context.database.reader.person.findMany();
    const prints = rows
      .flatMap((row) => [row.passwordHash, row.pinHash])
      .filter((one) => one !== null);
    expect(prints).toHaveLength(6);
    for (const print of prints) expect(print).toMatch(argon2id);
    expect(new Set(prints).size).toBe(prints.length);
  });

  it('stand nowhere else in the file: not in the log, not among stored answers, not as tokens', async () => {
    const issued = await manager
      .post(`/api/people/${shop.people.qa.id}/pin`)
      .set('Idempotency-Key', 'issue-a-pin-once')
      .expect(200);
    const { pin } = issued.body as { pin: string };
    await manager
      .post(`/api/people/${shop.people.office.id}/password`)
      .set('Idempotency-Key', 'set-a-password')
      .send({ password: testPassword })
      .expect(200);
    const reply = await shop
      .stranger()
      .post('/api/session')
      .set('Idempotency-Key', 'sign-in-with-key')
      .send({ code: 'S01', password: testPassword })
      .expect(200);
    const token = (reply.headers['set-cookie'] as unknown as string[])[0]?.match(/=([^;]+)/)?.[1];
    const { reader } = shop.context.database;
    const kept = JSON.stringify({
      events: await reader.event.findMany(),
      commands: await reader.command.findMany(),
      sessions: await reader.session.findMany(),
      tablets: await reader.tablet.findMany(),
      attempts: await reader.signInAttempt.findMany(),
    });
    for (const secret of [testPassword, `"${pin}"`, token ?? 'no token', 'argon2id'])
      expect(kept).not.toContain(secret);
  });

  it.each([
    ['post', '/api/session', { code: 'S01', password: { hidden: 'open sesame' } }],
    ['post', '/api/session', [{ code: 'S01', password: 'open sesame' }]],
    ['post', '/api/session', '"open sesame"'],
    ['post', '/api/first-run', { code: 'S01', name: 'S', password: 'open sesam' }],
    ['post', '/api/session/password', { oldPassword: 'open sesame', newPassword: 'open ses' }],
    ['post', '/api/session/password', { oldPassword: 'open sesame', newPassword: testPassword }],
    ['post', `/api/people/${unknownId}/password`, { password: 'open ses' }],
  ] as const)('are never said back: %s %s %j', async (method, path, body) => {
    const reply = await manager[method](path)
      .set('content-type', 'application/json')
      .send(typeof body === 'string' ? body : (body as object));
    expect(reply.status).toBeGreaterThanOrEqual(400);
    expect(reply.status).toBeLessThan(500);
    expect(reply.text).not.toContain('open ses');
  });

  it('are not called missing when they are there but not usable', async () => {
    const short = await manager
      .post(`/api/people/${unknownId}/password`)
      .send({ password: 'open ses' })
      .expect(400);
    const { message } = short.body as { message: string };
    expect(message).toContain('at least 12 characters');
    expect(message).not.toContain('missing');
    const none = await manager.post(`/api/people/${unknownId}/password`).send({}).expect(400);
    expect((none.body as { message: string }).message).toContain('body.password is missing');
  });

  it('are not among the people that are listed', async () => {
    const { text } = await manager.get('/api/people').expect(200);
    expect(text).not.toMatch(/hash|argon/i);
  });
});
