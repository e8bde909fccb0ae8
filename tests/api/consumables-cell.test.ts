import type { Feeder, Job, LotUse, Run } from '@tackboard/contract';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { passFirstPiece, putDown } from '../support/make-batch.js';
import { monday, startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { robotShop, type RobotShop } from '../support/robot-shop.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let robot: RobotShop;
let operator: Agent;
let office: Agent;
let coordinator: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  office = await shop.as('office');
  coordinator = await shop.as('coordinator');
  operator = shop.stranger();
  await operator.post('/api/session').send({ code: 'O03', password: testPassword }).expect(200);
});
beforeEach(async () => {
  shop.clock.set(monday);
  await putDownAll();
});
afterAll(async () => shop.close());

let serial = 0;
async function received(itemId = robot.wireItemId, certificate: string | null = '3.1') {
  const number = `L-${(serial += 1) + 100}`;
  const lot = { itemId, number, receivedOn: '2026-10-01', certificate, receivedAmount: 400 };
  return (await office.post('/api/lots').send(lot).expect(200)).body as {
    id: string;
    number: string;
  };
}
const load = async (lotId: string, amount = 15) =>
  operator.post(`/api/cells/${shop.cells.R1.id}/loads`).send({ lotId, amount });
const feeder = async (): Promise<Feeder> =>
  (await operator.get(`/api/cells/${shop.cells.R1.id}/feeder`).expect(200)).body;
const later = (ms: number) =>
  shop.clock.set(new Date(shop.clock.now().getTime() + ms).toISOString());
const first = ({ steps: [step] }: Job) => step?.id ?? '';
async function pulled(job: Job): Promise<Run> {
  const path = `/api/cells/${shop.cells.R1.id}/pull`;
  const answer = await operator.post(path).send({ jobStepId: first(job) });
  expect(answer.status, answer.body.message).toBe(200);
  await passFirstPiece(operator, answer.body.run.id);
  return answer.body.run;
}
const count = async (run: Run, good: number) =>
  operator.post(`/api/runs/${run.id}/counts`).send({ good }).expect(200);
const lotsOf = async (job: Job): Promise<LotUse[]> =>
  (await office.get(`/api/jobs/${job.id}/lots`).expect(200)).body.lots;
const wires = (uses: readonly LotUse[]) =>
  uses
    .filter(({ kind }) => kind === 'wire')
    .map(({ lotNumber, fromPart, toPart }) => [lotNumber, fromPart, toPart]);

async function putDownAll(): Promise<void> {
  const view = await office.get(`/api/cells/${shop.cells.R1.id}/view`);
  const runId = view.body.held?.step.holder?.runId;
  if (runId !== undefined) await putDown(coordinator, runId);
}
async function cancelled(jobs: readonly Job[]): Promise<void> {
  for (const job of jobs) {
    const { version } = (await office.get(`/api/jobs/${job.id}`)).body;
    const body = { reason: 'customer withdrew', expectedVersion: version };
    await office.post(`/api/jobs/${job.id}/cancel`).send(body);
  }
}

describe('doors', () => {
  let lotId = '';
  let loadId = '';
  let job: Job;
  beforeAll(async () => {
    job = await robot.job();
    lotId = (await received()).id;
  });
  beforeEach(async () => {
    loadId = (await load(lotId, 1)).body.id;
  });
  afterAll(async () => cancelled([job]));
  const doors = () => shop;
  firstFour('unload', doors, {
    method: 'post',
    path: () => `/api/loads/${loadId}/unload`,
    body: () => ({}),
    allowed: 'welder',
    malformed: { body: { leftAmount: -1 }, field: 'body.leftAmount' },
  });
  firstFour('feeder', doors, {
    method: 'get',
    path: () => `/api/cells/${shop.cells.R1.id}/feeder`,
    allowed: 'office',
    malformed: { path: '/api/cells/R1/feeder', field: 'params.cellId' },
  });
  firstFour('lots of a job', doors, {
    method: 'get',
    path: () => `/api/jobs/${job.id}/lots`,
    allowed: 'qa',
    malformed: { path: '/api/jobs/4/lots', field: 'params.jobId' },
  });
  firstFour('jobs of a lot', doors, {
    method: 'get',
    path: () => `/api/lots/${lotId}/jobs`,
    allowed: 'qa',
    malformed: { path: '/api/lots/L-77/jobs', field: 'params.lotId' },
  });
  it.each([
    ['get', `/api/cells/${unknownId}/feeder`],
    ['get', `/api/jobs/${unknownId}/lots`],
    ['get', `/api/lots/${unknownId}/jobs`],
    ['post', `/api/loads/${unknownId}/unload`],
  ] as const)('%s %s: there is no such thing', async (method, path) => {
    const answer = await (method === 'get' ? office.get(path) : office.post(path).send({}));
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
  });
});

describe('a lot that is taken off', () => {
  it('gives back to its lot what was weighed, once', async () => {
    const lot = await received();
    const loaded = (await load(lot.id, 15)).body;
    const off = async (leftAmount: number | null) =>
      operator.post(`/api/loads/${loaded.id}/unload`).send({ leftAmount });
    const tooMuch = await off(15.1);
    expect([tooMuch.status, tooMuch.body.fields[0].field]).toEqual([409, 'body.leftAmount']);
    expect((await off(4.2)).body).toMatchObject({ leftAmount: 4.2, lotNumber: lot.number });
    const again = await off(null);
    expect([again.status, again.body.code]).toEqual([409, 'NOT_NOW']);
    const { lots } = (await office.get('/api/lots')).body;
    // 400 received, 15 put on, 4.2 came back.
    expect(lots.find(({ id }: { id: string }) => id === lot.id).leftAmount).toBe(389.2);
    expect((await feeder()).loads.some(({ kind }) => kind === 'wire')).toBe(false);
  });
});

describe('the lots of a run', () => {
  it('follow by themselves: a lot changed after part 7 has parts 8 to 12', async () => {
    const [one, two] = [await received(), await received()];
    const job = await robot.job();
    await load(one.id);
    later(60_000);
    const run = await pulled(job);
    for (let part = 1; part <= 7; part += 1) {
      later(240_000);
      await count(run, 1);
    }
    later(60_000);
    expect((await load(two.id)).status).toBe(200);
    for (let part = 8; part <= 12; part += 1) {
      later(240_000);
      await count(run, 1);
    }
    expect(wires(await lotsOf(job))).toEqual([
      [one.number, 1, 7],
      [two.number, 8, 12],
    ]);
    const uses = (await office.get(`/api/lots/${two.id}/jobs`).expect(200)).body.jobs as LotUse[];
    expect(uses).toMatchObject([
      {
        ...{ jobNumber: job.number, fromPart: 8, toPart: 12, quantity: 12, cellCode: 'R1' },
        customerName: 'Nordhang Conveyors',
      },
    ]);
  });

  it('name none for a job that nobody has started', async () => {
    const job = await robot.job();
    expect(await lotsOf(job)).toEqual([]);
    await cancelled([job]);
  });
});

describe('the feeder', () => {
  it('foretells the spool change: 3.2 kg are good for 21 parts, twelve and fifteen want 3.98 kg', async () => {
    const lot = await received();
    await load(lot.id, 3.2);
    const jobs = [await robot.job({ quantity: 12 }), await robot.job({ quantity: 15 })];
    const { wire, words } = await feeder();
    // Part 22 from now is part 10 of the second job: 12 + 10.
    expect(wire).toMatchObject({ leftKg: 3.2, goodFor: 21 });
    expect(wire?.changeAt).toEqual({ jobNumber: jobs[1]?.number, part: 10, fromNow: 22 });
    expect(wire?.neededKg).toBeCloseTo(3.98, 2);
    expect(words[0]).toContain('good for 21 parts');
    expect(words[0]).toContain('needs 12');
    await load(lot.id, 15);
    expect((await feeder()).wire?.changeAt).toBeNull();
    await cancelled(jobs);
  });

  it('says that a lot has no certificate', async () => {
    const lot = await received(robot.wireItemId, null);
    await load(lot.id);
    expect((await feeder()).words.join(' ')).toContain(
      `Lot ${lot.number} of Solid wire 1.2 has no`,
    );
    await load((await received()).id);
  });
});

describe('a wrong lot', () => {
  async function otherWire() {
    const body = { kind: 'wire', designation: '19 12 3 L Si', name: `Other ${(serial += 1)}` };
    const item = { ...body, wireDiameterMm: 1.0, unit: 'kg' };
    const { id } = (await office.post('/api/items').send(item).expect(200)).body;
    return received(id);
  }

  it('is refused under the job in work, and gates the pull when it hangs there before', async () => {
    await load((await received()).id);
    const job = await robot.job();
    const wrong = await otherWire();
    const run = await pulled(job);
    const refused = await load(wrong.id);
    expect([refused.status, refused.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(refused.body.message).toContain('the set-up asks for Solid wire 1.2');
    expect(refused.body.fields[0].field).toBe('body.lotId');
    await operator.post(`/api/runs/${run.id}/put-down`).send({}).expect(200);
    expect((await load(wrong.id)).status).toBe(200);
    const path = `/api/cells/${shop.cells.R1.id}/pull`;
    const pull = await operator.post(path).send({ jobStepId: first(job) });
    expect([pull.status, pull.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    await load((await received()).id);
    await cancelled([job]);
  });

  it('without certificate is told for general work and stops a coded part', async () => {
    await load((await received(robot.wireItemId, null)).id);
    const [plain, coded] = [await robot.job(), await robot.job({ coded: true })];
    const rule = async (job: Job) =>
      (await operator.get(`/api/job-steps/${first(job)}/card`)).body.ready.find(
        (line: { rule: string }) => line.rule === 'wireCertificate',
      );
    expect(await rule(plain)).toMatchObject({ strength: 'tell' });
    expect(await rule(coded)).toMatchObject({ strength: 'gate', clearedBy: 'welder' });
    await load((await received()).id);
    expect(await rule(coded)).toBeUndefined();
    await cancelled([plain, coded]);
  });
});
