import type { Job, Person } from '@tackboard/contract';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { certifyOperator, robotShop, type RobotShop } from '../support/robot-shop.js';

const people = 50;
const tablets = 5;
let shop: TestShop;
let robot: RobotShop;
let agents: Agent[];

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  const cookies = await Promise.all(Array.from({ length: tablets }, registerTablet));
  agents = [];
  for (let index = 0; index < people; index += 1) {
    const code = `O${100 + index}`;
    const person = await robot.addPerson(code, `Operator ${index}`);
    await certifyOperator(shop, person, { cellId: shop.cells.R1.id, confirmedOn: '2026-09-01' });
    agents.push(await signedInAt(cookies[index % tablets], person));
  }
});
afterAll(async () => shop.close());

/** A new device at R1, as the cookie by which it is known. */
async function registerTablet(): Promise<string> {
  const manager = await shop.as('manager');
  const answer = await manager
    .post('/api/tablets')
    .send({ name: 'Tablet R1', cellId: shop.cells.R1.id })
    .expect(200);
  const [cookie] = answer.get('Set-Cookie') ?? [];
  return cookie?.split(';')[0] ?? '';
}

/** A session of one person on a registered tablet; the device's own cookie goes along. */
async function signedInAt(tabletCookie: string | undefined, person: Person): Promise<Agent> {
  if (tabletCookie === undefined) throw new Error('There is no tablet.');
  const { pin } = await shop.context.services.people.issuePin(shop.actor('manager'), person.id);
  const agent = shop.stranger();
  agent.set('Cookie', tabletCookie);
  const answer = await agent.post('/api/session/pin').send({ code: person.code, pin });
  expect(answer.status, answer.body.message).toBe(200);
  expect(answer.body.tablet.cellCode).toBe('R1');
  return agent;
}

const stepOf = ({ steps: [step] }: Job) => step?.id ?? '';
const pullAll = async (jobStepId: string | null) =>
  Promise.all(
    agents.map(async (agent) =>
      agent.post(`/api/cells/${shop.cells.R1.id}/pull`).send({ jobStepId }),
    ),
  );

it('gives one step to exactly one of fifty who pull it at once, and names that one to the rest', async () => {
  const job = await robot.job();
  const next = await robot.job();
  const answers = await pullAll(stepOf(job));
  const winners = answers.filter(({ status }) => status === 200);
  expect(winners).toHaveLength(1);
  const [winner] = winners;
  const holder = winner?.body.run.personCode;
  const losers = answers.filter(({ status }) => status !== 200);
  expect(losers).toHaveLength(people - 1);
  for (const { status, body } of losers) {
    expect([status, body.code]).toEqual([409, 'TAKEN']);
    expect(body.message).toContain(`was taken by ${holder} `);
    expect(body.current.holder).toMatchObject({ personCode: holder });
    expect(body.current.next.step.id).toBe(stepOf(next));
  }
  const runs = await agents[0]?.get(`/api/jobs/${job.id}/runs`);
  expect(runs?.body.runs).toHaveLength(1);
  const office = await shop.as('office');
  const now: Job = (await office.get(`/api/jobs/${job.id}`)).body;
  expect(now.steps[0]).toMatchObject({ state: 'held', version: 2 });
  const winnerAgent = agents[answers.findIndex(({ status }) => status === 200)];
  await winnerAgent?.post(`/api/runs/${winner?.body.run.id}/put-down`).send({}).expect(200);
});

it('gives the next ready step to exactly one of fifty who ask for it at once', async () => {
  const answers = await pullAll(null);
  expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
  for (const { status, body } of answers.filter((each) => each.status !== 200)) {
    // Who judged before the winner's commit lost that step; who came later found the cell holding it.
    expect(status).toBe(409);
    expect(['TAKEN', 'NOT_NOW']).toContain(body.code);
    expect(body.message).toMatch(/O1\d\d Operator \d+/);
  }
});
