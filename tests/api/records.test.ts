import type { HistoryEntry, Person } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';

describe('records', () => {
  let shop: TestShop;
  beforeAll(async () => {
    shop = await startTestShop();
  });
  afterAll(async () => shop.close());

  it('give the history of one record newest first, page by page, nothing twice', async () => {
    const manager = await shop.as('manager');
    let { body: person } = await manager
      .post('/api/people')
      .send({ code: 'W30', name: 'Name 1', role: 'welder' })
      .expect(200);
    for (let n = 2; n <= 7; n += 1) {
      const { id, version } = person as Person;
      ({ body: person } = await manager
        .patch(`/api/people/${id}`)
        .send({ expectedVersion: version, name: `Name ${n}` })
        .expect(200));
    }
    const seen: HistoryEntry[] = [];
    let more = true;
    while (more) {
      const { body } = await manager
        .get(`/api/history/person/${(person as Person).id}`)
        .query({ limit: 3, ...(seen.length === 0 ? {} : { before: seen.at(-1)?.seq }) })
        .expect(200);
      const page = body as { entries: HistoryEntry[]; more: boolean };
      seen.push(...page.entries);
      more = page.more;
    }
    expect(seen.map((entry) => (entry.after as Person).name)).toEqual(
      [7, 6, 5, 4, 3, 2, 1].map((n) => `Name ${n}`),
    );
    expect(seen.at(-1)).toMatchObject({ type: 'person.added', before: null, actorCode: 'M01' });
  });

  it('name the tablet where something was done', async () => {
    await shop.atTablet('R1', shop.people.welder);
    const office = await shop.as('office');
    const { body } = await office.get(`/api/history/person/${shop.people.welder.id}`).expect(200);
    expect((body as { entries: HistoryEntry[] }).entries[0]).toMatchObject({
      type: 'session.started',
      actorCode: 'W07',
      deviceName: 'Tablet R1',
    });
  });

  it('are empty for what nobody ever touched', async () => {
    const office = await shop.as('office');
    const { body } = await office.get('/api/history/job/none').expect(200);
    expect(body).toEqual({ entries: [], more: false });
  });

  it('say that the service and its database answer', async () => {
    const { body } = await shop.stranger().get('/api/health').expect(200);
    expect(body).toEqual({
      ok: true,
      version: expect.stringMatching(/^\d+\.\d+\.\d+/),
      database: 'ok',
    });
  });
});
