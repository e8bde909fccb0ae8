import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';

let shop: TestShop;
let manager: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  manager = await shop.as('manager');
});
afterAll(async () => shop.close());

const now = async () => (await manager.get('/api/settings')).body;
const inches = (expectedVersion: number) => ({
  unitSystem: 'us',
  reason: 'a customer measures in inches',
  expectedVersion,
});

describe('settings of the shop', () => {
  it('is metric until the manager says otherwise', async () => {
    expect(await now()).toEqual({ unitSystem: 'metric', version: 1 });
  });

  it('is shown to a tablet with nobody signed in', async () => {
    const tablet = await shop.tablet('R1');
    expect((await tablet.get('/api/settings')).status).toBe(200);
  });

  it('changes with its reason and leaves an event with from and to', async () => {
    const answer = await manager.put('/api/settings').send(inches(1));
    expect(answer.body).toEqual({ unitSystem: 'us', version: 2 });
    const history = await manager.get('/api/history/setting/shop');
    expect(history.body.entries[0]).toMatchObject({
      type: 'setting.changed',
      before: { unitSystem: 'metric' },
      after: { unitSystem: 'us' },
      reason: 'a customer measures in inches',
      actorCode: shop.people.manager.code,
    });
  });

  it('refuses a stale change with the settings as they stand', async () => {
    const answer = await manager.put('/api/settings').send(inches(1));
    expect(answer.status).toBe(409);
    expect(answer.body).toMatchObject({ code: 'STALE', current: await now() });
  });

  it('refuses a change without a reason, and stores nothing', async () => {
    const before = await now();
    const answer = await manager
      .put('/api/settings')
      .send({ ...inches(before.version), reason: '' });
    expect(answer.body.fields[0].field).toBe('body.reason');
    expect(await now()).toEqual(before);
  });
});

describe('doors', () => {
  const doors = () => shop;
  firstFour('read the settings', doors, {
    method: 'get',
    path: () => '/api/settings',
    allowed: 'welder',
  });
  firstFour('change the settings', doors, {
    method: 'put',
    path: () => '/api/settings',
    body: () => inches(2),
    allowed: 'manager',
    refused: 'qa',
    malformed: { body: { ...inches(2), unitSystem: 'cubits' }, field: 'body.unitSystem' },
  });
});
