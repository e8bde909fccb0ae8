import { buildApp, createContext, readConfig } from '@tackboard/api';
import supertest from 'supertest';
import { describe, expect, it } from 'vitest';
import { emptyDatabase, testPassword, timeZone } from '../support/app.js';

describe('the first run of an empty shop', () => {
  it('makes exactly one manager, whoever else tries at the same moment', async () => {
    const context = await createContext(
      readConfig({
        TACKBOARD_DATA: await emptyDatabase(),
        TACKBOARD_TIME_ZONE: timeZone,
        TACKBOARD_REQUESTS_PER_MIN: '30',
      }),
    );
    const app = await buildApp(context);
    await app.listen({ port: 0, host: '127.0.0.1' });
    const ask = supertest.agent(app.server);
    expect((await ask.get('/api/session').expect(200)).body).toEqual({
      person: null,
      tablet: null,
      firstRun: true,
      timeZone,
    });
    const replies = await Promise.all(
      ['M01', 'M02', 'M03', 'M04', 'M05'].map(async (code) =>
        supertest(app.server)
          .post('/api/first-run')
          .send({ code, name: `Manager ${code}`, password: testPassword }),
      ),
    );
    expect(replies.map((reply) => reply.status).sort()).toEqual([200, 409, 409, 409, 409]);
    expect(replies.find((reply) => reply.status === 200)?.body).toMatchObject({
      person: { role: 'manager' },
      firstRun: false,
    });
    expect(await context.database.reader.person.count()).toBe(1);
    expect((await ask.get('/api/session').expect(200)).body).toMatchObject({ firstRun: false });

    // One address is heard thirty times a minute here; then it is told to wait.
    const many = await Promise.all(Array.from({ length: 40 }, async () => ask.get('/api/health')));
    const refused = many.filter((reply) => reply.status === 429);
    expect(refused).toHaveLength(40 - (30 - 7));
    expect(refused[0]?.body).toMatchObject({ code: 'TOO_MANY_ATTEMPTS' });
    await app.close();
    await context.close();
  });
});
