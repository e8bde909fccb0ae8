import type { Job, Lane, OrderProposal } from '@tackboard/contract';
import { planning } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { call, expectGuarded, unknownId } from '../support/guarded.js';
import { boothStep } from '../support/repeat-part.js';
import { certifyOperator, robotShop, type RobotShop } from '../support/robot-shop.js';
import { signedIn } from '../support/signed-in.js';

type Input = NonNullable<Parameters<typeof call>[2]>;

/** Monday to Friday, 06:00 to 22:00. */
const calendar = {
  shifts: [1, 2, 3, 4, 5].map((weekday) => ({
    ...{ weekday, startTime: '06:00', endTime: '22:00', breakMin: 60, staffed: true },
  })),
  dayChanges: [],
  reason: null,
};

async function giveHours({ context, actor }: TestShop, cellId: string): Promise<void> {
  const { cells } = context.services;
  const { version } = await cells.get(cellId);
  await cells.setCalendar(actor('manager'), cellId, { ...calendar, expectedVersion: version });
}

async function planningShop(): Promise<{ shop: TestShop; robot: RobotShop; office: Agent }> {
  const shop = await startTestShop();
  const robot = await robotShop(shop);
  await giveHours(shop, shop.cells.R1.id);
  await giveHours(shop, shop.cells.M1.id);
  return { shop, robot, office: await signedIn(shop, 'office') };
}

async function done<T>(answer: PromiseLike<{ status: number; body: T }>): Promise<T> {
  const { status, body } = await answer;
  if (status !== 200) throw new Error(`${status}: ${JSON.stringify(body)}`);
  return body;
}

const lanes = async (office: Agent): Promise<Lane[]> =>
  (await done<{ lanes: Lane[] }>(office.get('/api/board'))).lanes;
const order = async (office: Agent) =>
  (await lanes(office)).map(({ cellCode, steps }) => [
    cellCode,
    ...steps.map(({ jobNumber }) => jobNumber),
  ]);
const propose = async (office: Agent): Promise<OrderProposal> =>
  done(call(office, planning.propose));
const proposal = async (office: Agent, proposalId: string): Promise<OrderProposal> =>
  done(call(office, planning.get, { params: { proposalId } }));
const accept = async (office: Agent, proposalId: string, body: Input['body']) =>
  call(office, planning.accept, { params: { proposalId }, body });
const stepsOf = (moves: OrderProposal['moves']) =>
  moves.flatMap(({ steps }) => steps.map(({ jobStepId }) => jobStepId));

async function until(
  office: Agent,
  proposalId: string,
  reached: (one: OrderProposal) => boolean,
): Promise<OrderProposal> {
  for (let tries = 0; tries < 400; tries += 1) {
    const one = await proposal(office, proposalId);
    if (reached(one)) return one;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error('The proposal did not get there.');
}

const finished = async (office: Agent, { id }: OrderProposal) =>
  until(office, id, ({ state }) => state !== 'searching');

describe('doors', () => {
  let shop: TestShop;
  beforeAll(async () => {
    shop = await startTestShop();
  });
  afterAll(async () => shop.close());
  const allowed = ['office', 'manager'] as const;
  const params = { proposalId: 'first' };
  const malformed = [{ params, field: 'params.proposalId' }];

  it('of asking', async () => expectGuarded(shop, planning.propose, { allowed }));
  it('of reading', async () => expectGuarded(shop, planning.get, { allowed, malformed }));
  it('of stopping', async () => expectGuarded(shop, planning.stop, { allowed, malformed }));
  it('of accepting', async () =>
    expectGuarded(shop, planning.accept, {
      allowed,
      malformed: [
        { params, body: { round: 1, moves: [unknownId] }, field: 'params.proposalId' },
        { body: { moves: [unknownId] }, field: 'body.round' },
        { body: { round: 0, moves: [unknownId] }, field: 'body.round' },
        { body: { round: 1, moves: [] }, field: 'body.moves' },
        { body: { round: 1, moves: ['731'] }, field: 'body.moves.0' },
      ],
    }));

  it('answer in words where nothing waits and where there is no such proposal', async () => {
    const office = await signedIn(shop, 'office');
    const nothing = await call(office, planning.propose);
    expect([nothing.status, nothing.body.code]).toEqual([409, 'NOT_NOW']);
    expect(nothing.body.message).toContain('There is nothing to put in order.');
    for (const route of [planning.get, planning.stop]) {
      const none = await call(office, route);
      expect([none.status, none.body.code]).toEqual([404, 'NOT_FOUND']);
    }
    const none = await accept(office, unknownId, { round: 1, moves: [unknownId] });
    expect([none.status, none.body.code]).toEqual([404, 'NOT_FOUND']);
  });
});

describe('a proposed order of work', () => {
  let shop: TestShop;
  let robot: RobotShop;
  let office: Agent;
  let jobs: Job[];
  beforeAll(async () => {
    ({ shop, robot, office } = await planningShop());
    const other = await shop.context.services.parts.addFixture(shop.actor('manager'), {
      ...{ code: 'FX-040', place: 'B2-4', condition: 'good', notes: '', lastCheckOn: null },
    });
    // Bad on purpose: what is due first comes last, and the fixture changes after every job.
    const dueOn = ['10-09', '10-09', '10-08', '10-08', '10-05', '10-05'];
    jobs = [];
    for (const [at, day] of dueOn.entries()) {
      const setUp = at % 2 === 0 ? {} : { fixtureId: other.id };
      jobs.push(await robot.job({ quantity: 40, dueOn: `2026-${day}`, setUp }));
    }
  });
  afterAll(async () => shop.close());

  let best: OrderProposal;
  it('is better than a bad one, and moves nothing by itself', async () => {
    const before = await order(office);
    const asked = await propose(office);
    expect(asked.trouble).toBeNull();
    best = await finished(office, asked);
    expect(best).toMatchObject({ state: 'done', proven: true, proposedCost: 0 });
    // 40 parts take (15 + 40 x 4.23) / (0.8 x 15 / 16) = 245.6 min: six of them reach far into Tuesday.
    expect(best.todayCost).toBeGreaterThan(60);
    expect(await order(office)).toEqual(before);
  });

  it('names for each move the job, the places and the reasons', () => {
    const sum = best.moves.reduce((all, { cost }) => all + cost, 0);
    expect(sum).toBe((best.proposedCost ?? 0) - (best.todayCost ?? 0));
    const numbers = jobs.map(({ number }) => number);
    for (const { steps, reasons, cost } of best.moves) {
      expect(reasons.reduce((all, reason) => all + reason.cost, 0)).toBe(cost);
      for (const step of steps) {
        expect(step).toMatchObject({ fromCellCode: 'R1', toCellCode: 'R1', stepName: 'Weld' });
        expect(numbers).toContain(step.jobNumber);
        if (step.before) expect(numbers).toContain(step.before.jobNumber);
      }
    }
    const saving = best.moves.find(({ cost }) => cost < 0);
    expect(saving?.reasons[0]).toMatchObject({ kind: 'lateness', customer: 'Nordhang Conveyors' });
  });

  it('refuses a round and a step that it does not have, and moves nothing', async () => {
    const before = await order(office);
    const round = await accept(office, best.id, { round: 99, moves: stepsOf(best.moves) });
    expect([round.status, round.body.fields[0].field]).toEqual([404, 'body.round']);
    const moves = [...stepsOf(best.moves), unknownId];
    const step = await accept(office, best.id, { round: best.round, moves });
    expect([step.status, step.body.fields[0].field]).toEqual([
      404,
      `body.moves.${moves.length - 1}`,
    ]);
    expect(await order(office)).toEqual(before);
  });

  it('is refused as a whole once the run queues have changed', async () => {
    const [first] = jobs as [Job];
    const step = first.steps[0]?.id ?? '';
    await done(
      office
        .post(`/api/job-steps/${step}/move`)
        .send({ cellId: shop.cells.R1.id, beforeStepId: null, expectedVersion: 1 }),
    );
    const before = await order(office);
    const body = { round: best.round, moves: stepsOf(best.moves) };
    const stale = await accept(office, best.id, body);
    expect([stale.status, stale.body.code]).toEqual([409, 'STALE']);
    expect(stale.body.message).toContain(`job ${first.number}`);
    expect(stale.body.message).toContain('Nothing was moved. Ask for a new proposal.');
    expect(await order(office)).toEqual(before);
  });

  it('is taken in part: the chosen steps move and no others, with the reason kept', async () => {
    best = await finished(office, await propose(office));
    const chosen = best.moves.find(({ cost }) => cost < 0);
    if (chosen === undefined) throw new Error('No move saves anything.');
    const moved = new Set(stepsOf([chosen]));
    const before = (await lanes(office)).find(({ cellCode }) => cellCode === 'R1')?.steps ?? [];
    const answer = await accept(office, best.id, { round: best.round, moves: [...moved] });
    expect([answer.status, answer.body]).toEqual([200, { moved: moved.size }]);
    const after = (await lanes(office)).find(({ cellCode }) => cellCode === 'R1')?.steps ?? [];
    const staying = (steps: typeof after) =>
      steps.map(({ id }) => id).filter((id) => !moved.has(id));
    expect(staying(after)).toEqual(staying(before));
    expect(after.map(({ id }) => id)).not.toEqual(before.map(({ id }) => id));
    const { entries } = await done<{ entries: { type: string; reason: string }[] }>(
      office.get(`/api/history/jobStep/${[...moved][0]}`),
    );
    expect(entries[0]?.type).toBe('jobStep.moved');
    expect(entries[0]?.reason).toMatch(/^Accepted from the proposed order of work: \d+ weighted/);
  });

  it('is taken as a whole, and then nothing better is found', async () => {
    best = await finished(office, await propose(office));
    const body = { round: best.round, moves: stepsOf(best.moves) };
    expect((await accept(office, best.id, body)).status).toBe(200);
    const again = await finished(office, await propose(office));
    expect(again).toMatchObject({ todayCost: best.proposedCost, moves: [] });
  });

  it('says in words what cannot be planned', async () => {
    const steps = [boothStep, { ...boothStep, number: 2, name: 'Weld out' }];
    const job = await robot.job({ steps });
    const [tack] = job.steps;
    const place = { cellId: shop.cells.M1.id, beforeStepId: null };
    const move = async (expectedVersion: number, beforeStepId: string | null) =>
      office
        .post(`/api/job-steps/${tack?.id}/move`)
        .send({ ...place, beforeStepId, expectedVersion });
    expect((await move(1, null)).status).toBe(200);
    const stuck = await finished(office, await propose(office));
    expect(stuck.state).toBe('failed');
    expect(stuck.trouble).toContain('steps wait for each other for ever');
    expect((await move(2, job.steps[1]?.id ?? null)).status).toBe(200);
  });
});

describe('a move that no longer applies', () => {
  let shop: TestShop;
  let office: Agent;
  beforeAll(async () => {
    let robot: RobotShop;
    ({ shop, robot, office } = await planningShop());
    const manager = await signedIn(shop, 'manager');
    const second = await done<{ id: string }>(
      manager.post('/api/cells').send({ ...shop.cells.R1, code: 'R2', name: 'Robot, idle' }),
    );
    await giveHours(shop, second.id);
    // Without an operator of its own nothing would be proposed there.
    await certifyOperator(shop, robot.operator, { cellId: second.id, confirmedOn: '2026-08-12' });
    for (const dueOn of ['2026-10-09', '2026-10-05'])
      await robot.job({ quantity: 100, dueOn, steps: [boothStep] });
    for (let count = 0; count < 6; count += 1)
      await robot.job({
        quantity: 60,
        dueOn: count < 4 ? '2026-10-06' : '2026-10-05',
        setUp: null,
      });
  });
  afterAll(async () => shop.close());

  it('refuses all of them, and the run queues stay as they were', async () => {
    const best = await finished(office, await propose(office));
    const targets = best.moves.flatMap(({ steps }) => steps.map(({ toCellCode }) => toCellCode));
    // The move at the booth is made first and can be made: it has to be taken back.
    const to = targets.at(-1);
    expect(targets[0]).toBe('M1');
    expect(to).toMatch(/^R[12]$/);
    const { cells: service } = shop.context.services;
    const cell = (await service.list()).cells.find(({ code }) => code === to);
    await service.edit(shop.actor('manager'), cell?.id ?? '', {
      ...{ active: false, expectedVersion: cell?.version ?? 0 },
    });
    const before = await order(office);
    const body = { round: best.round, moves: stepsOf(best.moves) };
    const answer = await accept(office, best.id, body);
    expect([answer.status, answer.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(answer.body.message).toContain(`${to} is out of use`);
    expect(await order(office)).toEqual(before);
  });
});

describe('a search under way', () => {
  let shop: TestShop;
  let office: Agent;
  beforeAll(async () => {
    let robot: RobotShop;
    ({ shop, robot, office } = await planningShop());
    // Far more than can be done in time, so that no order is proven to be the best.
    for (let count = 0; count < 14; count += 1)
      await robot.job({ quantity: 150 + 10 * ((count * 5) % 14), dueOn: '2026-10-06' });
  });
  afterAll(async () => shop.close());

  it('can be stopped, and what was found stays', async () => {
    const { id } = await propose(office);
    const first = await until(office, id, ({ round }) => round > 0);
    expect(first).toMatchObject({ state: 'searching', proven: false });
    const stopped: OrderProposal = await done(
      call(office, planning.stop, { params: { proposalId: id } }),
    );
    expect(stopped.state).toBe('stopped');
    expect(stopped.proposedCost).toBeLessThan(stopped.todayCost ?? 0);
    await new Promise((resolve) => setTimeout(resolve, 600));
    expect(await proposal(office, id)).toEqual(stopped);
  });

  it('gives way to a newer one', async () => {
    const older = await propose(office);
    const newer = await propose(office);
    expect((await proposal(office, older.id)).state).toBe('stopped');
    expect((await proposal(office, newer.id)).state).toBe('searching');
  });

  it('ends when moves of it are accepted', async () => {
    const { id } = await propose(office);
    const seen = await until(office, id, ({ moves }) => moves.length > 0);
    const body = { round: seen.round, moves: stepsOf(seen.moves) };
    expect((await accept(office, id, body)).status).toBe(200);
    expect((await proposal(office, id)).state).toBe('stopped');
  });
});
