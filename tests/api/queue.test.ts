import type { Board, CellView, Job, QueuedStep, SetUpCard } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { boothStep } from '../support/repeat-part.js';
import {
  bracketWeld,
  certifyOperator,
  certifyWelder,
  robotShop,
  robotStep,
  type RobotShop,
} from '../support/robot-shop.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let robot: RobotShop;
let office: Agent;
let tablet: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  office = await shop.as('office');
  tablet = await shop.tablet('R1');
});
afterAll(async () => shop.close());

const first = ({ steps: [step] }: Job) => step?.id ?? '';
const board = async (): Promise<Board> => (await tablet.get('/api/board')).body;
const laneOf = async (code: string) =>
  (await board()).lanes.find(({ cellCode }) => cellCode === code);
const queued = async (job: Job): Promise<QueuedStep> => {
  const steps = (await board()).lanes.flatMap((lane) => lane.steps);
  const found = steps.find(({ id }) => id === first(job));
  if (!found) throw new Error(`job ${job.number} is not queued`);
  return found;
};
const card = async (job: Job, agent = tablet): Promise<SetUpCard> =>
  (await agent.get(`/api/job-steps/${first(job)}/card`)).body;
const line = ({ ready }: SetUpCard, rule: string) => ready.find((each) => each.rule === rule);

describe('doors', () => {
  let job: Job;
  beforeAll(async () => {
    job = await robot.job();
  });
  firstFour('board', () => shop, { method: 'get', path: () => '/api/board', allowed: 'welder' });
  firstFour('cell view', () => shop, {
    method: 'get',
    path: () => `/api/cells/${shop.cells.R1.id}/view`,
    allowed: 'office',
    malformed: { path: '/api/cells/R1/view', field: 'params.cellId' },
  });
  firstFour('card', () => shop, {
    method: 'get',
    path: () => `/api/job-steps/${first(job)}/card`,
    allowed: 'qa',
    malformed: { path: '/api/job-steps/1/card', field: 'params.jobStepId' },
  });
  firstFour('move', () => shop, {
    method: 'post',
    path: () => `/api/job-steps/${first(job)}/move`,
    body: () => ({ cellId: shop.cells.R1.id, beforeStepId: null, expectedVersion: 1 }),
    allowed: 'office',
    refused: 'welder',
    malformed: { body: { cellId: 'R1' }, field: 'body.expectedVersion' },
  });

  it('answers a tablet on which nobody is signed in', async () => {
    expect((await tablet.get('/api/board')).status).toBe(200);
    expect((await tablet.get(`/api/cells/${shop.cells.R1.id}/view`)).status).toBe(200);
    const moved = await tablet
      .post(`/api/job-steps/${first(job)}/move`)
      .send({ cellId: shop.cells.R1.id, beforeStepId: null, expectedVersion: 1 });
    expect([moved.status, moved.body.code]).toEqual([401, 'NOT_SIGNED_IN']);
  });

  it('says so when there is no such cell or step', async () => {
    expect((await office.get(`/api/cells/${unknownId}/view`)).body.code).toBe('NOT_FOUND');
    expect((await office.get(`/api/job-steps/${unknownId}/card`)).body.code).toBe('NOT_FOUND');
  });
});

describe('board', () => {
  it('shows every cell with its open steps in their order, and from where to listen on', async () => {
    const job = await robot.job({ number: 'B-1', quantity: 7, dueOn: '2026-10-09' });
    const { lanes, lastSeq } = await board();
    expect(lanes.map(({ cellCode }) => cellCode)).toEqual(['M1', 'R1']);
    const lane = lanes[1];
    expect(lane?.steps.at(-1)).toMatchObject({
      ...{ id: first(job), jobNumber: job.number, partNumber: 'B-1', revision: 'B', quantity: 7 },
      ...{ customerName: 'Nordhang Conveyors', dueOn: '2026-10-09', state: 'waiting' },
      ...{ wpsNumber: 'WPS-014', late: false, holder: null, kitComplete: true, setUpMin: 25 },
    });
    const sum = lane?.steps.reduce((total, { plannedMin }) => total + plannedMin, 0);
    expect(lane?.queuedMin).toBeCloseTo(sum ?? 0, 6);
    expect(lastSeq).toBeGreaterThan(0);
  });

  it('calls a step late once its due day has ended in the shop, not in UTC', async () => {
    const job = await robot.job({ dueOn: '2026-10-05' });
    const now = shop.clock.now().toISOString();
    // 21:59 UTC on 5 October is 23:59 in Berlin, one minute later it is the 6th there.
    shop.clock.set('2026-10-05T21:59:00Z');
    expect((await queued(job)).late).toBe(false);
    shop.clock.set('2026-10-05T22:00:00Z');
    expect((await queued(job)).late).toBe(true);
    shop.clock.set(now);
  });

  it('leaves out what is cancelled', async () => {
    const job = await robot.job();
    await office
      .post(`/api/jobs/${job.id}/cancel`)
      .send({ reason: 'customer withdrew', expectedVersion: job.version })
      .expect(200);
    expect((await laneOf('R1'))?.steps.map(({ jobId }) => jobId)).not.toContain(job.id);
  });
});

describe('move', () => {
  const move = async (job: Job, body: object) =>
    office.post(`/api/job-steps/${first(job)}/move`).send(body);
  const to = async (job: Job, beforeStepId: string | null) =>
    move(job, {
      ...{ cellId: shop.cells.R1.id, beforeStepId },
      expectedVersion: (await queued(job)).version,
    });
  const order = async (jobs: Job[]) =>
    ((await laneOf('R1'))?.steps ?? [])
      .filter(({ jobId }) => jobs.some(({ id }) => id === jobId))
      .map(({ jobNumber }) => jobs.findIndex(({ number }) => number === jobNumber));

  it('places a step before another or at the end', async () => {
    const jobs = [await robot.job(), await robot.job(), await robot.job()];
    const [one, , three] = jobs as [Job, Job, Job];
    expect((await to(three, first(one))).status).toBe(200);
    expect(await order(jobs)).toEqual([2, 0, 1]);
    expect((await to(three, null)).status).toBe(200);
    expect(await order(jobs)).toEqual([0, 1, 2]);
  });

  it('finds room however often two steps change places', async () => {
    const jobs = [await robot.job(), await robot.job(), await robot.job()];
    const [one, two, three] = jobs as [Job, Job, Job];
    for (let round = 0; round < 40; round += 1) {
      expect((await to(round % 2 === 0 ? three : two, null)).status).toBe(200);
      expect((await to(round % 2 === 0 ? three : two, first(one))).status).toBe(200);
      expect((await to(one, round % 2 === 0 ? first(three) : first(two))).status).toBe(200);
    }
    expect((await order(jobs)).toSorted()).toEqual([0, 1, 2]);
  });

  it('refuses what was changed meanwhile, with the row as it stands', async () => {
    const job = await robot.job();
    const answer = await move(job, {
      ...{ cellId: shop.cells.R1.id, beforeStepId: null, expectedVersion: 7 },
    });
    expect([answer.status, answer.body.code]).toEqual([409, 'STALE']);
    expect(answer.body.current).toMatchObject({ id: first(job), version: 1, state: 'waiting' });
  });

  it('refuses a cell of another kind and names those that fit', async () => {
    const job = await robot.job();
    const answer = await move(job, {
      ...{ cellId: shop.cells.M1.id, beforeStepId: null, expectedVersion: 1 },
    });
    expect([answer.status, answer.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(answer.body.message).toContain('M1 is a booth');
    expect(answer.body.fields).toEqual([{ field: 'body.cellId', given: 'M1', allowed: 'R1' }]);
  });

  it('refuses a place before a step of another queue', async () => {
    const job = await robot.job();
    const answer = await move(job, {
      ...{ cellId: shop.cells.R1.id, beforeStepId: unknownId, expectedVersion: 1 },
    });
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
    expect(answer.body.fields[0].field).toBe('body.beforeStepId');
  });

  it('moves a blocked step and keeps it blocked; refuses a done one', async () => {
    const tack = { ...boothStep, name: 'Tack' };
    const job = await robot.job({
      steps: [tack, { ...robotStep, number: 2 }],
      welds: [{ ...bracketWeld, stepNumber: 2 }],
    });
    const second = job.steps[1]?.id;
    const moved = await office
      .post(`/api/job-steps/${second}/move`)
      .send({ cellId: shop.cells.R1.id, beforeStepId: null, expectedVersion: 1 });
    expect([moved.status, moved.body.state]).toEqual([200, 'blocked']);
    const cancelled = await office
      .post(`/api/jobs/${job.id}/cancel`)
      .send({ reason: 'customer withdrew', expectedVersion: job.version });
    expect(cancelled.status, cancelled.body.message).toBe(200);
    const answer = await office
      .post(`/api/job-steps/${second}/move`)
      .send({ cellId: shop.cells.R1.id, beforeStepId: null, expectedVersion: 3 });
    expect([answer.body.code, answer.body.message]).toEqual([
      'NOT_NOW',
      expect.stringContaining('is cancelled'),
    ]);
  });
});

describe('set-up card', () => {
  it('shows what to dial and figures from the weld list', async () => {
    const job = await robot.job({ quantity: 12 });
    const answer = await card(job);
    expect(answer.setUp).toMatchObject({
      currentA: 255,
      programName: 'P-143',
      fixturePlace: 'B2-3',
    });
    expect(answer.wps).toMatchObject({ number: 'WPS-014', revision: 1 });
    expect(answer.fit).toMatchObject({ result: 'inside', wpsLabel: 'WPS-014 r1' });
    const { figures } = answer;
    // Worked by hand: 960 mm / 520 mm/min x 60 = 110.8 s; + 8 x 1.5 + 30 + 6 + 95 = 253.8 s.
    expect(figures.arcSPerPart).toBeCloseTo(110.77, 2);
    expect(figures.cycleS).toBeCloseTo(253.77, 2);
    // 0.8 x 60 x 255 A x 26.5 V / (1000 x 520 mm/min) = 0.624 kJ/mm (EN 1011-1).
    expect(figures.heatInputKjMm).toBeCloseTo(0.624, 3);
    // Area 1.131 mm2 x 9000 mm/min x 0.96 / 520 mm/min = 18.8 mm2, its root is 4.33 mm.
    expect(figures.throatFromSettingsMm).toBeCloseTo(4.33, 2);
    // 147.5 g each, 12 of them; 15 l/min x (110.8 + 8) s = 29.7 l each.
    expect(figures.wireKgBatch).toBeCloseTo(1.77, 2);
    expect(figures.gasLBatch).toBeCloseTo(356.3, 1);
    expect(figures.feederKg).toBe(15);
    // 15 000 g / 147.5 g
    expect(figures.partsFromFeeder).toBe(101);
  });

  it('is ready when nothing stops it, and asks no interpass temperature before the first run', async () => {
    const answer = await card(await robot.job());
    const strong = answer.ready.filter(({ strength }) => strength !== 'pass');
    expect(strong).toEqual([]);
    expect(answer.ready.map(({ rule }) => rule)).not.toContain('person');
  });

  it('gates a part that is too thick on an uncoded part, refuses it on a coded one', async () => {
    const welds = [{ ...bracketWeld, thicknessAMm: 15, thicknessBMm: 15 }];
    const plain = line(await card(await robot.job({ welds })), 'thickness');
    expect(plain).toMatchObject({ strength: 'gate', overriddenBy: null });
    expect(plain?.text).toBe('weld 1: thickness 15 mm is above 12.');
    const coded = line(await card(await robot.job({ welds, coded: true })), 'thickness');
    expect(coded?.strength).toBe('refuse');
    const exact = [{ ...bracketWeld, thicknessAMm: 12, thicknessBMm: 12 }];
    expect(line(await card(await robot.job({ welds: exact })), 'thickness')).toBeUndefined();
  });

  it('works out the throat where the drawing gives the leg', async () => {
    // a = z / sqrt 2: a leg of 8 mm is a throat of 5.66 mm, a leg of 9 mm one of 6.36 mm; a 3 to 6 mm is covered.
    const legs = (legMm: number) => [{ ...bracketWeld, throatMm: null, legMm }];
    expect(line(await card(await robot.job({ welds: legs(8) })), 'throat')).toBeUndefined();
    const thick = line(await card(await robot.job({ welds: legs(9) })), 'throat');
    expect(thick?.text).toContain('throat 6.364 mm is above 6');
  });

  it('refuses what only changed facts can heal', async () => {
    const noWps = await robot.job({ steps: [{ ...robotStep, wpsNumber: 'WPS-404' }] });
    expect(line(await card(noWps), 'wps')).toMatchObject({
      ...{ strength: 'refuse', text: 'Procedure WPS-404 has no approved revision.' },
    });
    const kit = await robot.job();
    await office
      .post(`/api/job-steps/${first(kit)}/kit`)
      .send({ complete: false })
      .expect(200);
    expect(line(await card(kit), 'kit')?.strength).toBe('refuse');
  });

  it('gates another wire than the set-up asks for, a fixture in repair, a changed program', async () => {
    const other = await shop.context.services.consumables.addItem(shop.actor('manager'), {
      ...{ kind: 'wire', designation: 'G4Si1', name: 'Solid wire G4', wireDiameterMm: 1.2 },
      unit: 'kg',
    });
    const wire = await card(await robot.job({ setUp: { wireItemId: other.id } }));
    expect(line(wire, 'wireLoaded')).toMatchObject({ strength: 'gate' });
    expect(line(wire, 'filler')?.text).toBe('weld 1: filler G4Si1 is not among G3Si1.');
    const program = await card(await robot.job({ setUp: { programRevision: '3' } }));
    expect(line(program, 'program')?.text).toContain('revision 4 is on file');
    const fixture = await shop.context.services.parts.addFixture(shop.actor('manager'), {
      ...{ code: 'FX-9', place: 'A1', condition: 'repair', notes: '', lastCheckOn: null },
    });
    const repair = await card(await robot.job({ setUp: { fixtureId: fixture.id } }));
    expect(line(repair, 'fixture')).toMatchObject({
      ...{ strength: 'gate', text: 'Fixture FX-9 at A1 is in repair.' },
    });
  });

  it('tells when the wire on the feeder is short, without stopping', async () => {
    const short = line(await card(await robot.job({ quantity: 120 })), 'feeder');
    // 120 parts draw 17.7 kg; 15 kg are on the feeder, good for 101.
    expect(short).toMatchObject({ strength: 'tell' });
    expect(short?.text).toContain('enough for 101 of 120 parts');
  });

  it('tells, and does not gate, while no set-up is kept', async () => {
    const answer = await card(await robot.job({ setUp: null }));
    expect(line(answer, 'setUp')?.strength).toBe('tell');
    expect(answer.ready.filter(({ strength }) => strength === 'gate')).toEqual([]);
    expect(answer.figures.arcSPerPart).toBeNull();
  });
});

describe('person rule', () => {
  const signIn = async (code: string) => {
    const agent = shop.stranger();
    const password = 'a long enough password';
    await agent.post('/api/session').send({ code, password }).expect(200);
    return agent;
  };
  const personLine = async (job: Job, code: string) =>
    line(await card(job, await signIn(code)), 'person');

  it('passes a confirmed operator of this robot', async () => {
    expect(await personLine(await robot.job(), 'O03')).toMatchObject({ strength: 'pass' });
  });

  it('names a confirmation that ran out, since when, and who could', async () => {
    const late = await robot.addPerson('O05', 'Osric Tallow');
    // Six months from 30 March end with 30 September; the shop's day is 5 October.
    await certifyOperator(shop, late, { cellId: shop.cells.R1.id, confirmedOn: '2026-03-30' });
    const plain = await personLine(await robot.job(), 'O05');
    expect(plain?.strength).toBe('gate');
    expect(plain?.text).toContain('confirmation ended 30 Sep 2026, 5 days ago');
    expect(plain?.text).toContain('Qualified today: O03 Orla Winterbeck');
    const coded = await personLine(await robot.job({ coded: true }), 'O05');
    expect(coded?.strength).toBe('refuse');
  });

  it("does not count a welder's certificate at a robot", async () => {
    await certifyWelder(shop, shop.people.welder);
    const answer = await personLine(await robot.job(), 'W07');
    expect(answer?.text).toContain("no operator's certificate for R1");
    expect(answer?.text).toContain('does not count at a robot');
  });

  it('names the weld and the variable that a certificate does not hold at a booth', async () => {
    const steps = [{ ...boothStep, wpsNumber: null }];
    const upwards = await robot.job({ steps, welds: [{ ...bracketWeld, position: 'PF' }] });
    const answer = await personLine(upwards, 'W07');
    expect(answer?.strength).toBe('gate');
    expect(answer?.text).toContain('weld 1: position PF is outside PA, PB of certificate C-W07');
    const flat = await robot.job({ steps });
    expect(await personLine(flat, 'W07')).toMatchObject({ strength: 'pass' });
    const thin = [{ ...bracketWeld, thicknessAMm: 2, thicknessBMm: 6 }];
    const thinAnswer = await personLine(await robot.job({ steps, welds: thin }), 'W07');
    expect(thinAnswer?.text).toContain('thickness 2 mm is outside 3 mm and more');
  });
});

describe('cell view', () => {
  it('shows the first ready step and says why the ones before were passed over', async () => {
    const other = await startTestShop();
    const ready = await robotShop(other);
    const kit = await ready.job({ number: 'K-1' });
    const thick = await ready.job({
      number: 'K-2',
      welds: [{ ...bracketWeld, thicknessAMm: 15, thicknessBMm: 15 }],
    });
    const good = await ready.job({ number: 'K-3' });
    const agent = await other.as('office');
    await agent
      .post(`/api/job-steps/${first(kit)}/kit`)
      .send({ complete: false })
      .expect(200);
    const view: CellView = (await agent.get(`/api/cells/${other.cells.R1.id}/view`)).body;
    expect(view.held).toBeNull();
    expect(view.next?.step.id).toBe(first(good));
    expect(view.passedOver.map(({ partNumber, text }) => [partNumber, text])).toEqual([
      ['K-1', 'The kit is not complete: parts are missing.'],
      ['K-2', 'weld 1: thickness 15 mm is above 12.'],
    ]);
    expect(view.passedOver[1]?.jobStepId).toBe(first(thick));
    expect(view.lane.steps).toHaveLength(3);
    await other.close();
  });
});
