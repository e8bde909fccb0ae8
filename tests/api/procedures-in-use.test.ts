import type { WpsInUse } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { monday, startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { unknownId } from '../support/guarded.js';
import { robotShop, type RobotShop } from '../support/robot-shop.js';

let shop: TestShop;
let robot: RobotShop;
let operator: Agent;
let wpsId = '';

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  operator = shop.stranger();
  await operator.post('/api/session').send({ code: 'O03', password: testPassword }).expect(200);
  wpsId = (await shop.context.services.procedures.approvedByNumber('WPS-014'))?.id ?? '';
});
afterAll(async () => shop.close());

const inUse = async (id = wpsId): Promise<WpsInUse> =>
  (await operator.get(`/api/wpss/${id}/in-use`).expect(200)).body;

describe('what is set and was read under a procedure', () => {
  firstFour('in use', () => shop, {
    ...{ method: 'get', path: () => `/api/wpss/${wpsId}/in-use`, allowed: 'welder' },
    malformed: { path: '/api/wpss/14/in-use', field: 'params.wpsId' },
  });

  it('is not there for a procedure that is not', async () => {
    expect((await operator.get(`/api/wpss/${unknownId}/in-use`).expect(404)).body).toMatchObject({
      code: 'NOT_FOUND',
    });
  });

  it('is nothing before anybody set or read anything', async () => {
    expect(await inUse()).toEqual({ setUps: [], readings: [] });
  });

  it('names each set-up with its cell and part, and the readings newest first, forty at most', async () => {
    const job = await robot.job({ number: 'X-USE', quantity: 12 });
    expect((await inUse()).setUps).toMatchObject([
      {
        ...{ cellCode: 'R1', partNumber: 'X-USE', stepNumber: 1, wireDiameterMm: 1.2 },
        ...{ currentA: 255, voltageV: 26.5, wireSpeedMMin: 9, travelMmMin: 520 },
      },
    ]);
    const pulled = await operator
      .post(`/api/cells/${shop.cells.R1.id}/pull`)
      .send({ jobStepId: job.steps[0]?.id });
    expect(pulled.status, pulled.body.message).toBe(200);
    const start = Date.parse(monday);
    for (let at = 1; at <= 42; at += 1) {
      shop.clock.set(new Date(start + at * 60_000).toISOString());
      const answer = await operator
        .post(`/api/runs/${pulled.body.run.id}/readings`)
        .send({ currentA: 200 + at });
      expect(answer.status, answer.body.message).toBe(200);
    }
    const { readings } = await inUse();
    expect(readings).toHaveLength(40);
    expect(readings[0]).toMatchObject({ currentA: 242, voltageV: null });
    expect(readings.at(-1)).toMatchObject({ currentA: 203 });
  });

  it('keeps the readings with the revision they were made under', async () => {
    const { procedures } = shop.context.services;
    const next = await procedures.revise(shop.actor('qa'), wpsId, { changeNote: 'new gas' });
    const found = await inUse(next.id);
    expect(found.readings).toEqual([]);
    expect(found.setUps).toHaveLength(1);
  });
});
