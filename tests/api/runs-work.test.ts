import type { Job, Run } from '@tackboard/contract';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { monday, startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { passFirstPiece, putDown } from '../support/make-batch.js';
import { boothStep } from '../support/repeat-part.js';
import {
  bracketWeld,
  certifyWelder,
  robotShop,
  robotStep,
  type RobotShop,
} from '../support/robot-shop.js';

let shop: TestShop;
let robot: RobotShop;
let operator: Agent;
let coordinator: Agent;
let welder: Agent;
/** Arc time of one bracket: 960 mm at 520 mm/min, in seconds. */
const arcS = (960 / 520) * 60;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  await certifyWelder(shop, shop.people.welder);
  operator = shop.stranger();
  await operator.post('/api/session').send({ code: 'O03', password: testPassword }).expect(200);
  coordinator = await shop.as('coordinator');
  welder = await shop.as('welder');
});
let open: Run[] = [];
beforeEach(async () => {
  shop.clock.set(monday);
  for (const { id } of open) await putDown(coordinator, id);
  open = [];
});
afterAll(async () => shop.close());

const later = (minutes: number) => {
  const at = new Date(Date.parse(monday) + minutes * 60_000).toISOString();
  shop.clock.set(at);
  return at;
};
const act = async (run: Run, what: string, body: object = {}, agent = operator) =>
  what === 'put-down'
    ? putDown(agent, run.id, body)
    : agent.post(`/api/runs/${run.id}/${what}`).send(body);
/** Pulled, started, and its first piece checked. */
async function pulled(job: Job, at = 0, agent = operator): Promise<Run> {
  const step = job.steps[at];
  const answer = await agent.post(`/api/cells/${step?.cellId}/pull`).send({ jobStepId: step?.id });
  expect(answer.status, answer.body.message).toBe(200);
  open.push(answer.body.run);
  await passFirstPiece(agent, answer.body.run.id);
  return answer.body.run;
}
const runNow = async ({ id }: Run): Promise<Run> => (await operator.get(`/api/runs/${id}`)).body;
const jobNow = async ({ id }: Job): Promise<Job> => (await operator.get(`/api/jobs/${id}`)).body;
const lastEvent = async (run: Run) =>
  (await operator.get(`/api/history/run/${run.id}`)).body.entries[0];

describe('count', () => {
  it('adds up parts and arc time on the run and good and scrap on the step', async () => {
    const job = await robot.job({ quantity: 12 });
    const run = await pulled(job);
    await act(run, 'counts', { good: 3, rework: 1 });
    const answer = await act(run, 'counts', { good: 2, scrap: 1 });
    expect(answer.status, answer.body.message).toBe(200);
    const expected = { goodCount: 5, reworkCount: 1, scrapCount: 1, stepGoodCount: 5 };
    expect(answer.body).toMatchObject({ ...expected, arcSource: 'counted', version: 5 });
    expect(answer.body.arcS).toBeCloseTo(7 * arcS, 6);
    expect(await runNow(run)).toEqual(answer.body);
    expect((await jobNow(job)).steps[0]).toMatchObject({ goodCount: 5, scrapCount: 1 });
  });

  it('takes the wire of the parts off what is on the feeder', async () => {
    const wireOf = async () =>
      (await operator.get('/api/loads')).body.loads.find(
        ({ kind }: { kind: string }) => kind === 'wire',
      ).leftAmount;
    const before = await wireOf();
    const run = await pulled(await robot.job());
    await act(run, 'counts', { good: 4 });
    // pi/4 x 1.2^2 mm2 x 7850 kg/m3 = 8.878 g/m; 9 m/min x 110.8 s = 16.6 m: 147.5 g a part.
    expect(before - (await wireOf())).toBeCloseTo(4 * 0.1475, 3);
  });

  it('asks before it counts beyond the batch, and counts once confirmed', async () => {
    const run = await pulled(await robot.job({ quantity: 2 }));
    expect((await act(run, 'counts', { good: 2 })).status).toBe(200);
    const asked = await act(run, 'counts', { good: 1 });
    expect([asked.status, asked.body.code]).toEqual([422, 'NEEDS_CONFIRMATION']);
    expect(asked.body.message).toContain('3 good parts would be more than the batch of 2');
    expect((await runNow(run)).goodCount).toBe(2);
    const sure = await act(run, 'counts', { good: 1, beyondBatchConfirmed: true });
    expect(sure.body.goodCount).toBe(3);
  });

  it('is for the holder; the coordinator may in their place', async () => {
    const run = await pulled(await robot.job());
    const refused = await act(run, 'counts', { good: 1 }, welder);
    expect([refused.status, refused.body.code]).toEqual([409, 'NOT_NOW']);
    expect(refused.body.message).toContain('is held by O03 Orla Winterbeck');
    expect((await act(run, 'counts', { good: 1 }, coordinator)).body.goodCount).toBe(1);
  });

  it('keeps the time of the cell beside its own, and names a clock that runs ahead', async () => {
    const run = await pulled(await robot.job());
    later(30);
    const happenedAt = '2026-10-05T05:10:00.000Z';
    await act(run, 'counts', { good: 1, happenedAt });
    expect((await lastEvent(run)).after).toMatchObject({ happenedAt, clockAheadS: null });
    await act(run, 'counts', { good: 1, happenedAt: '2026-10-05T08:30:00.000Z' });
    // 08:30 said at 05:30 is three hours ahead.
    expect((await lastEvent(run)).after).toMatchObject({
      ...{ happenedAt: '2026-10-05T05:30:00.000Z', saidAt: '2026-10-05T08:30:00.000Z' },
      clockAheadS: 10_800,
    });
  });

  it('counts a command that is sent twice once', async () => {
    const run = await pulled(await robot.job());
    const send = async () =>
      operator
        .post(`/api/runs/${run.id}/counts`)
        .set('Idempotency-Key', `count-${run.id}`)
        .send({ good: 5 });
    const [one, two] = await Promise.all([send(), send()]);
    expect([one.body.goodCount, two.body.goodCount]).toEqual([5, 5]);
    expect((await runNow(run)).goodCount).toBe(5);
  });
});

describe('what was done while the network was away', () => {
  it('keeps when each act happened, though all arrive together and later', async () => {
    const run = await pulled(await robot.job());
    later(90);
    const at = (minutes: number) => new Date(Date.parse(monday) + minutes * 60_000).toISOString();
    await act(run, 'counts', { good: 1, happenedAt: at(10) });
    expect((await lastEvent(run)).after).toMatchObject({ happenedAt: at(10) });
    await act(run, 'stops', { cause: 'fault', happenedAt: at(20) });
    await act(run, 'resume', { happenedAt: at(35) });
    await act(run, 'readings', { currentA: 250, happenedAt: at(40) });
    const { stops, readings } = await runNow(run);
    expect(stops).toMatchObject([{ startedAt: at(20), endedAt: at(35) }]);
    expect(readings).toMatchObject([{ happenedAt: at(40), at: at(90) }]);
  });
});

describe('an act that is sent later', () => {
  it('is taken from the one who did it only, whoever is signed in by then', async () => {
    const run = await pulled(await robot.job());
    const send = async (agent: Agent) =>
      agent
        .post(`/api/runs/${run.id}/counts`)
        .set('Idempotency-Key', `later-${run.id}`)
        .set('Acting-Person', run.personId)
        .send({ good: 1 });
    const refused = await send(coordinator);
    expect([refused.status, refused.body.code]).toEqual([401, 'NOT_SIGNED_IN']);
    expect((await runNow(run)).goodCount).toBe(0);
    expect((await send(operator)).body.goodCount).toBe(1);
  });
});

describe('note', () => {
  it('adds a line to the note of the run, with the time of the act', async () => {
    const run = await pulled(await robot.job());
    later(30);
    const happenedAt = '2026-10-05T05:10:00.000Z';
    const one = await act(run, 'notes', { text: 'Clamp 2 sits loose.', happenedAt });
    expect(one.body).toMatchObject({ version: 4, handOverNote: 'Clamp 2 sits loose.' });
    expect(await lastEvent(run)).toMatchObject({
      type: 'run.noted',
      after: { text: 'Clamp 2 sits loose.', happenedAt, clockAheadS: null },
    });
    await act(run, 'notes', { text: 'New tip at part 4.' });
    const down = await act(run, 'put-down', { note: 'Fixture warm.' });
    expect(down.body.handOverNote).toBe('Clamp 2 sits loose.\nNew tip at part 4.\nFixture warm.');
    expect((await runNow(run)).handOverNote).toBe(down.body.handOverNote);
  });

  it('is for the holder', async () => {
    const run = await pulled(await robot.job());
    const refused = await act(run, 'notes', { text: 'Not mine.' }, welder);
    expect([refused.status, refused.body.code]).toEqual([409, 'NOT_NOW']);
    expect((await runNow(run)).handOverNote).toBeNull();
  });
});

describe('stop and resume', () => {
  it('keeps cause and times, one stop at a time', async () => {
    const run = await pulled(await robot.job());
    const stopped = later(10);
    const first = await act(run, 'stops', { cause: 'waitingParts', note: 'plates missing' });
    expect(first.body.stops).toMatchObject([
      { cause: 'waitingParts', note: 'plates missing', startedAt: stopped, endedAt: null },
    ]);
    const second = await act(run, 'stops', { cause: 'fault' });
    expect([second.body.code, second.body.message]).toEqual([
      'NOT_NOW',
      expect.stringContaining('stands still already since 07:10:00'),
    ]);
    const ended = later(25);
    const resumed = await act(run, 'resume');
    expect(resumed.body.stops[0].endedAt).toBe(ended);
    expect(await runNow(run)).toEqual(resumed.body);
    expect((await act(run, 'resume')).body.code).toBe('NOT_NOW');
  });
});

describe('readings', () => {
  it('judges heat input from what was typed, and keeps it as typed', async () => {
    const run = await pulled(await robot.job());
    const typed = { currentA: 280, voltageV: 28, travelMmMin: 300, weldNumber: 1 };
    const answer = await act(run, 'readings', typed);
    expect(answer.status, answer.body.message).toBe(200);
    // 0.8 x 60 x 280 A x 28 V / (1000 x 300 mm/min) = 1.254 kJ/mm (EN 1011-1).
    expect(answer.body.words).toEqual([
      'travel 300 mm/min is below 450.',
      'heat input 1.254 kJ/mm is above 0.95.',
    ]);
    const [reading] = answer.body.run.readings;
    expect(reading).toMatchObject({ ...typed, result: 'outside', personCode: 'O03' });
    const strengths = answer.body.lines.map((line: { variable: string; strength: string }) => [
      ...[line.variable, line.strength],
    ]);
    expect(strengths).toContainEqual(['heatInput', 'gate']);
    expect(await runNow(run)).toEqual(answer.body.run);
  });

  it.each([
    // 0.8 x 60 x 280 x 28 / (1000 x 450) = 0.836; 0.8 x 60 x 230 x 25 / (1000 x 600) = 0.460
    { currentA: 280, voltageV: 28, travelMmMin: 450 },
    { currentA: 230, voltageV: 25, travelMmMin: 600 },
  ])('says all inside for %o', async (typed) => {
    const run = await pulled(await robot.job());
    const answer = await act(run, 'readings', typed);
    expect(answer.body.words).toEqual(['All of it is inside WPS-014 r1.']);
    expect(answer.body.run.readings[0].result).toBe('inside');
  });

  it.each([
    [{ travelMmMin: 52 }, 'Was a travel of 520 mm/min meant? 52 mm/min is stored as typed.'],
    [{ travelMmMin: 5200 }, 'Was a travel of 520 mm/min meant? 5200 mm/min is stored as typed.'],
    [
      { currentA: 26.5, voltageV: 255 },
      'Were volts and amps swapped? 255 V and 26.5 A are stored as typed.',
    ],
    [
      { wireSpeedMMin: 45 },
      'A wire speed of 45 m/min is not plausible; look again. It is stored as typed.',
    ],
  ])('questions %o and changes nothing', async (typed, words) => {
    const run = await pulled(await robot.job());
    const answer = await act(run, 'readings', typed);
    expect(answer.body.words).toContain(words);
    expect(answer.body.run.readings[0]).toMatchObject(typed);
  });

  it('shows them on the next card of the part', async () => {
    const job = await robot.job();
    const run = await pulled(job);
    await act(run, 'readings', { currentA: 251 });
    const card = await operator.get(`/api/job-steps/${job.steps[0]?.id}/card`);
    expect(card.body.recentReadings[0]).toMatchObject({ currentA: 251, voltageV: null });
  });

  it('refuses a weld that this step does not make, and an empty reading', async () => {
    const run = await pulled(await robot.job());
    const answer = await act(run, 'readings', { weldNumber: 9, currentA: 250 });
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
    expect(answer.body.message).toContain('This step has no weld 9');
    const empty = await act(run, 'readings', {});
    expect([empty.status, empty.body.code]).toEqual([400, 'INVALID']);
  });
});

describe('put down', () => {
  it('ends the run and its open stop; the step waits again with its counts', async () => {
    const job = await robot.job();
    const run = await pulled(job);
    await act(run, 'counts', { good: 5 });
    await act(run, 'stops', { cause: 'setUp' });
    const endedAt = later(60);
    const answer = await act(run, 'put-down', { setUpMin: 25, note: 'fixture warm' });
    expect(answer.status, answer.body.message).toBe(200);
    expect(answer.body).toMatchObject({ endedAt, setUpMin: 25, handOverNote: 'fixture warm' });
    expect(answer.body.stops[0].endedAt).toBe(endedAt);
    expect((await jobNow(job)).steps[0]).toMatchObject({
      ...{ state: 'waiting', goodCount: 5, holder: null },
    });
    const again = await pulled(job);
    expect(again.stepGoodCount).toBe(5);
    expect((await act(run, 'put-down')).body.code).toBe('NOT_NOW');
  });

  it('takes typed arc minutes and says that they were typed', async () => {
    const run = await pulled(await robot.job());
    const answer = await act(run, 'put-down', { arcMinTyped: 12.5 });
    expect(answer.body).toMatchObject({ arcS: 750, arcSource: 'typed' });
  });

  it('is done when the batch is complete', async () => {
    const job = await robot.job({ quantity: 3 });
    const run = await pulled(job);
    await act(run, 'counts', { good: 3 });
    const finishedAt = later(20);
    await act(run, 'put-down');
    expect(await jobNow(job)).toMatchObject({ state: 'done', finishedAt });
    const board = await operator.get('/api/board');
    expect(JSON.stringify(board.body)).not.toContain(job.id);
  });

  it('closes a job short when its batch is called complete with fewer parts', async () => {
    const job = await robot.job({ quantity: 3 });
    const run = await pulled(job);
    await act(run, 'counts', { good: 2, scrap: 1 });
    await act(run, 'put-down', { batchComplete: true });
    expect(await jobNow(job)).toMatchObject({ state: 'closedShort' });
  });

  it('lets the next step start when the one before is done', async () => {
    const job = await robot.job({
      quantity: 2,
      steps: [
        { ...boothStep, name: 'Tack' },
        { ...robotStep, number: 2 },
      ],
      welds: [{ ...bracketWeld, stepNumber: 2 }],
    });
    const tack = await pulled(job, 0, welder);
    await act(tack, 'counts', { good: 2 }, welder);
    await act(tack, 'put-down', {}, welder);
    expect((await jobNow(job)).steps.map(({ state }) => state)).toEqual(['done', 'waiting']);
    expect((await jobNow(job)).state).toBe('running');
    const weld = await pulled(job, 1);
    await act(weld, 'counts', { good: 2 });
    await act(weld, 'put-down');
    expect((await jobNow(job)).state).toBe('done');
  });
});
