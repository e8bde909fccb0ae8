import type { BodyOf, Job, Lane, Order, OrderCheck, orders, parts } from '@tackboard/contract';
import { expect } from 'vitest';
import { monday, testPassword, type Agent, type TestShop } from './app.js';
import { finishRun } from './make-batch.js';
import { addCustomer, addReleasedPart } from './repeat-part.js';
import { bracketWeld, robotShop, robotStep, type RobotShop } from './robot-shop.js';
import { signedIn } from './signed-in.js';

type Line = Partial<BodyOf<typeof orders.check>>;
type StepBody = BodyOf<typeof parts.setSteps>['steps'][number];

/** 7:00 to 15:00 with half an hour of break: 450 min, 360 job minutes at a planning factor of 0.8. */
const shifts = [1, 2, 3, 4, 5].map((weekday) => ({
  ...{ weekday, startTime: '07:00', endTime: '15:00', breakMin: 30, staffed: true },
}));
const lastMadeAt = '2026-03-14T08:00:00.000Z';

export type BracketShop = Awaited<ReturnType<typeof openBracketShop>>;

/** An invented shop with three customers and a bracket that the robot made last on 14 March 2026. */
export async function openBracketShop(shop: TestShop) {
  const robot = await robotShop(shop);
  const office: Agent = await signedIn(shop, 'office');
  const customers = {
    alder: (await addCustomer(shop, 'Alder')).id,
    birch: (await addCustomer(shop, 'Birch')).id,
    cedar: (await addCustomer(shop, 'Cedar')).id,
  };
  await setCalendars(shop);
  const bracket = await addReleasedPart(shop, {
    ...{ number: 'X-210-01', steps: [robotStep], welds: [bracketWeld], label: 'B' },
  });
  const stepId = bracket.revision.steps[0]?.id ?? '';
  await shop.context.services.parts.freezeSetUp(shop.actor('manager'), stepId, robot.setUp());

  const line = (changes: Line = {}) => ({
    ...{ partId: bracket.id, orderedRevision: 'B', quantity: 12, dueOn: '2026-10-07' },
    ...changes,
  });
  const send = async (customerId: string, changes: Line = {}) =>
    office.post('/api/orders').send({
      ...{ customerId, customerOrder: 'PO-1', entryMs: 40_000, lines: [line(changes)] },
    });
  async function take(customerId: string, changes: Line = {}): Promise<Job> {
    const answer = await send(customerId, changes);
    expect(answer.status, answer.body.message).toBe(200);
    const [job] = (answer.body as Order).jobs;
    if (job === undefined) throw new Error('An order has a job for each line.');
    return job;
  }
  const desk = {
    ...{ shop, robot, office, customers, bracket, line, send, take },
    operator: async () => signedInAs(shop, robot),
    async check(changes: Line = {}): Promise<OrderCheck> {
      const answer = await office.post('/api/orders/check').send(line(changes));
      expect(answer.status, answer.body.message).toBe(200);
      return answer.body;
    },
    /** A part of one step that takes so many minutes per batch, whatever the quantity. */
    async filler(number: string, minutes: number, step: StepBody = robotStep): Promise<string> {
      const steps = [{ ...step, setUpMin: minutes - 1, firstPieceMin: 0, unitMin: 1 }];
      return (await addReleasedPart(shop, { number, steps, welds: [bracketWeld] })).id;
    },
    async lane(code: string): Promise<Lane> {
      const { lanes } = (await office.get('/api/board')).body as { lanes: Lane[] };
      const found = lanes.find(({ cellCode }) => cellCode === code);
      if (found === undefined) throw new Error(`There is no lane ${code}.`);
      return found;
    },
    async cancel({ id }: Pick<Job, 'id'>): Promise<void> {
      const { version } = (await office.get(`/api/jobs/${id}`)).body;
      const body = { reason: 'not wanted any more', expectedVersion: version };
      await office.post(`/api/jobs/${id}/cancel`).send(body).expect(200);
    },
  };
  await makeOnce(desk);
  return desk;
}

async function signedInAs(shop: TestShop, { operator }: RobotShop): Promise<Agent> {
  const agent = shop.stranger();
  const sent = { code: operator.code, password: testPassword };
  await agent.post('/api/session').send(sent).expect(200);
  return agent;
}

async function setCalendars(shop: TestShop): Promise<void> {
  const { cells } = shop.context.services;
  for (const { id } of Object.values(shop.cells)) {
    const { version: expectedVersion } = await cells.get(id);
    await cells.setCalendar(shop.actor('manager'), id, {
      ...{ shifts, dayChanges: [], expectedVersion, reason: null },
    });
  }
}

async function makeOnce(desk: {
  shop: TestShop;
  customers: { alder: string };
  robot: RobotShop;
  operator(): Promise<Agent>;
  take(customerId: string, changes: Line): Promise<Job>;
}): Promise<void> {
  const { shop } = desk;
  const { people } = shop.context.services;
  const { certificates } = await people.certificates(desk.robot.operator.id);
  await people.confirmCertificate(shop.actor('coordinator'), certificates[0]?.id ?? '', {
    ...{ confirmedOn: '2026-02-10', evidence: 'jobs of the last six months' },
  });
  shop.clock.set(lastMadeAt);
  const job = await desk.take(desk.customers.alder, { dueOn: '2026-03-30' });
  const operator = await desk.operator();
  const pulled = await operator
    .post(`/api/cells/${shop.cells.R1.id}/pull`)
    .send({ jobStepId: job.steps[0]?.id });
  expect(pulled.status, pulled.body.message).toBe(200);
  shop.clock.set('2026-03-14T09:30:00.000Z');
  await finishRun(operator, pulled.body.run.id, job.quantity);
  shop.clock.set(monday);
}
