import type { Job, OrderProposal } from '@tackboard/contract';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { monday, startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { passFirstPiece, putDown } from '../support/make-batch.js';
import { robotShop, type RobotShop } from '../support/robot-shop.js';
import { signedIn } from '../support/signed-in.js';

let shop: TestShop;
let robot: RobotShop;
let office: Agent;
let operator: Agent;
let otherFixtureId = '';
let minutes = Date.parse(monday) / 60_000;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  office = await signedIn(shop, 'office');
  operator = shop.stranger();
  const sent = { code: robot.operator.code, password: testPassword };
  await operator.post('/api/session').send(sent).expect(200);
  const { cells, parts } = shop.context.services;
  const { version } = await cells.get(shop.cells.R1.id);
  await cells.setCalendar(shop.actor('manager'), shop.cells.R1.id, {
    ...{ dayChanges: [], reason: null, expectedVersion: version },
    shifts: [1, 2, 3, 4, 5].map((weekday) => ({
      ...{ weekday, startTime: '06:00', endTime: '22:00', breakMin: 60, staffed: true },
    })),
  });
  const fixture = await parts.addFixture(shop.actor('manager'), {
    ...{ code: 'FX-040', place: 'B2-4', condition: 'good', notes: '', lastCheckOn: null },
  });
  otherFixtureId = fixture.id;
});
afterAll(async () => shop.close());

const jobWith = async (fixtureId: string): Promise<Job> =>
  robot.job({ quantity: 1, setUp: { fixtureId }, dueOn: '2026-10-30' });

/** Pulled, made and put down an hour later, with the minutes that setting up took. */
async function make({ steps: [step] }: Job, setUpMin: number): Promise<void> {
  const pulled = await operator
    .post(`/api/cells/${shop.cells.R1.id}/pull`)
    .send({ jobStepId: step?.id });
  expect(pulled.status, pulled.body.message).toBe(200);
  const at = `/api/runs/${pulled.body.run.id}`;
  await passFirstPiece(operator, pulled.body.run.id);
  minutes += 60;
  shop.clock.set(new Date(minutes * 60_000).toISOString());
  await operator.post(`${at}/counts`).send({ good: 1 }).expect(200);
  const down = await putDown(operator, pulled.body.run.id, { batchComplete: true, setUpMin });
  expect(down.status, down.body.message).toBe(200);
}

async function changeOvers(): Promise<OrderProposal['changeOvers']> {
  const asked = await office.post('/api/proposals');
  expect(asked.status, asked.body.message).toBe(200);
  await office.post(`/api/proposals/${asked.body.id}/stop`).expect(200);
  return asked.body.changeOvers;
}

it('a change-over is planned by the table until the cell has made it three times, then as measured', async () => {
  const pair = [await jobWith(robot.fixtureId), await jobWith(otherFixtureId)] as const;
  const byTable = { ...{ cellCode: 'R1', changed: ['fixture'], times: 1 }, minutes: 10 };
  expect(await changeOvers()).toEqual([
    { ...byTable, basis: 'table', runs: null, lowMin: null, highMin: null },
  ]);
  // The run before the first is not known, so three change-overs take four runs: 21, 25 and 23 min.
  await make(pair[0], 40);
  await make(pair[1], 21);
  await make(await jobWith(robot.fixtureId), 25);
  const last = [await jobWith(otherFixtureId), await jobWith(robot.fixtureId)] as const;
  expect(await changeOvers()).toMatchObject([{ basis: 'table', minutes: 10 }]);
  await make(last[0], 23);
  const next = await jobWith(otherFixtureId);
  expect(next.steps[0]?.cellCode).toBe('R1');
  const [measured] = await changeOvers();
  expect(measured).toMatchObject({ basis: 'measured', minutes: 23, runs: 3, changed: ['fixture'] });
  // The middle four fifths of 21, 23, 25: places 0.2 and 1.8.
  expect(measured?.lowMin).toBeCloseTo(21.4, 6);
  expect(measured?.highMin).toBeCloseTo(24.6, 6);
});
