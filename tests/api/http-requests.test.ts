import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';

const person = { code: 'W40', name: 'Wiebke Torrund', role: 'welder' };

describe('requests', () => {
  let shop: TestShop;
  let manager: Agent;
  beforeAll(async () => {
    shop = await startTestShop();
    manager = await shop.as('manager');
  });
  afterAll(async () => shop.close());

  const people = async () => shop.context.database.reader.person.count();

  it.each([
    { origin: 'http://elsewhere.example' },
    { origin: 'null' },
    { origin: 'no address at all' },
    { 'sec-fetch-site': 'cross-site' },
    { 'sec-fetch-site': 'same-site' },
  ])('that write from a page of another address change nothing: %j', async (headers) => {
    const before = await people();
    const reply = await manager.post('/api/people').set(headers).send(person).expect(403);
    expect(reply.body).toMatchObject({ code: 'FOREIGN_ORIGIN' });
    expect(await people()).toBe(before);
  });

  it('that write from a page of the board itself are taken', async () => {
    const { port } = shop.app.server.address() as { port: number };
    await manager
      .post('/api/people')
      .set({ origin: `http://127.0.0.1:${port}`, 'sec-fetch-site': 'same-origin' })
      .send(person)
      .expect(200);
  });

  it.each(['/api/health', '/api/people', '/api/nothing', '/api/docs'])(
    'are answered with headers that allow no inline script and no frame: %s',
    async (path) => {
      const { headers } = await shop.stranger().get(path);
      const policy = String(headers['content-security-policy'])
        .split(';')
        .map((one) => one.trim());
      expect(policy).toContain("default-src 'self'");
      expect(policy).toContain("script-src 'self'");
      expect(policy).toContain("object-src 'none'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['referrer-policy']).toBe('same-origin');
      expect(headers).not.toHaveProperty('x-powered-by');
    },
  );

  it('below /api are answered with what no browser keeps', async () => {
    const { headers } = await manager.get('/api/people').expect(200);
    expect(headers['cache-control']).toBe('no-store');
  });

  it.each([
    ['malformed JSON', 'application/json', '{"code":', 400, 'INVALID'],
    ['no JSON at all', 'application/json', '', 400, 'INVALID'],
    ['a hidden prototype', 'application/json', '{"__proto__":{"role":"manager"}}', 400, 'INVALID'],
    ['a list instead of fields', 'application/json', '[]', 400, 'INVALID'],
    ['plain text', 'text/plain', 'hello', 415, 'WRONG_MEDIA_TYPE'],
    ['a form', 'application/x-www-form-urlencoded', 'code=W41', 415, 'WRONG_MEDIA_TYPE'],
    ['XML', 'application/xml', '<person/>', 415, 'WRONG_MEDIA_TYPE'],
    ['an over-long body', 'application/json', `"${'x'.repeat(1_048_577)}"`, 413, 'TOO_LARGE'],
  ])('with %s are refused in words', async (_what, type, body, status, code) => {
    const reply = await manager.post('/api/people').set('content-type', type).send(body);
    expect(reply.status).toBe(status);
    expect(reply.body).toMatchObject({ code, requestId: expect.stringMatching(/./) });
    expect((reply.body as { message: string }).message).toMatch(/^(body|[A-Z]).+\.$/);
  });

  it.each([
    ['/api/%zz', 400],
    ['/api/people/%zz/sessions', 400],
    ['/api/people/%00/sessions', 400],
    ['/api/people?x=%zz', 200],
    [`/api/people/${'x'.repeat(500)}/sessions`, 400],
    ['/%61pi/people', 200],
    ['/api/nothing', 404],
    ['/api/nothing?%zz', 404],
    ['/api/..%2f..%2fpackage.json', 404],
    ['/..%2f..%2fpackage.json', 404],
    ['/nothing.js', 404],
    ['/api/history/person/x?limit=1e400', 400],
    ['/api/history/person/x?before=9007199254740991', 200],
    ['/api/history/person/x?before=-1', 200],
    ['/api/history/person/x?limit=5&limit=6', 400],
  ])('to an odd address never fail inside: %s', async (path, status) => {
    expect((await manager.get(path)).status).toBe(status);
  });

  it.each(['/API/people', '//', '//:x', '//elsewhere.example/api/people'])(
    'to an address that is no operation open the screens, once they are built: %s',
    async (path) => {
      const built = existsSync(join(shop.context.config.webFolder, 'index.html'));
      const reply = await manager.get(path);
      expect(reply.status).toBe(built ? 200 : 404);
      expect(reply.headers['content-type']).toMatch(built ? /^text\/html/ : /^application\/json/);
    },
  );

  it('to a spelled-out address are guarded like the plain one', async () => {
    await shop.stranger().get('/%61pi/people').expect(401);
  });

  it('to an unknown address or with an unknown method say so', async () => {
    const reply = await manager.post('/api/nothing').send({}).expect(404);
    expect(reply.body).toMatchObject({
      code: 'NOT_FOUND',
      message: 'There is nothing at POST /api/nothing.',
    });
    await manager.put('/api/people').send({}).expect(404);
  });

  it('name field, value and what is allowed', async () => {
    const reply = await manager
      .post('/api/people')
      .send({ ...person, code: '<W42>', role: 'boss' })
      .expect(400);
    expect(reply.body).toMatchObject({
      code: 'INVALID',
      fields: [
        { field: 'body.code', given: '<W42>', allowed: expect.stringContaining('letter or digit') },
        { field: 'body.role', given: 'boss', allowed: expect.stringContaining('welder') },
      ],
    });
    expect((reply.body as { message: string }).message).toMatch(
      /^body\.code is ".+; body\.role is/,
    );
  });
});
