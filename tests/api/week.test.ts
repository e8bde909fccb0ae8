import type { Job, Week } from '@tackboard/contract';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { signFirstPiece } from '../support/make-batch.js';
import { robotShop, type RobotShop } from '../support/robot-shop.js';

let shop: TestShop;
let robot: RobotShop;
let manager: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  const { R1 } = shop.cells;
  await shop.context.services.cells.setCalendar(shop.actor('manager'), R1.id, {
    ...{ expectedVersion: R1.version, reason: null, dayChanges: [] },
    shifts: [1, 2, 3, 4, 5].map((weekday) => ({
      ...{ weekday, startTime: '07:00', endTime: '15:30', breakMin: 60, staffed: weekday < 5 },
    })),
  });
  await workOnMonday();
  shop.clock.set('2026-10-09T13:30:00Z');
  manager = await shop.as('manager');
});
afterAll(async () => shop.close());

/** A batch of three on Monday, done in time; one that is late; both taken in 42 seconds. */
async function workOnMonday(): Promise<void> {
  const { runs } = shop.context.services;
  const operator = robot.by(robot.operator);
  const { id: cellId } = shop.cells.R1;
  const job = await robot.job({ quantity: 3, dueOn: '2026-10-05' });
  await robot.job({ quantity: 3, dueOn: '2026-10-06' });
  const at = (minutes: number) =>
    shop.clock.set(new Date(Date.parse('2026-10-05T05:00:00Z') + minutes * 60_000).toISOString());
  at(0);
  const { run } = await runs.pull(operator, cellId, { jobStepId: firstOf(job) });
  at(30);
  const happenedAt = null;
  await runs.stop(operator, run.id, { cause: 'waitingParts', note: '', happenedAt });
  at(45);
  await runs.resume(operator, run.id, { happenedAt });
  at(90);
  await signFirstPiece(shop, operator, run.id);
  await runs.count(operator, run.id, {
    ...{ good: 3, rework: 0, scrap: 1, beyondBatchConfirmed: false, happenedAt },
  });
  await runs.closeOut(operator, run.id, {
    ...{ programRevision: '4', programNote: null, fixture: null, watchOuts: null },
  });
  await runs.putDown(operator, run.id, {
    ...{ setUpMin: 25, arcMinTyped: null, note: '', batchComplete: false, happenedAt },
  });
}
const firstOf = ({ steps: [step] }: Job) => step?.id ?? '';
const week = async (from?: string): Promise<Week> =>
  (await manager.get(`/api/week${from === undefined ? '' : `?from=${from}`}`)).body;
const robotIn = ({ cells }: Week) => cells.find(({ cellCode }) => cellCode === 'R1');

firstFour('week', () => shop, {
  method: 'get',
  path: () => '/api/week?from=2026-10-05',
  allowed: 'manager',
  refused: 'welder',
  malformed: { path: '/api/week?from=2026-02-31', field: 'query.from' },
});
firstFour('week as a table', () => shop, {
  method: 'get',
  path: () => '/api/week.csv',
  allowed: 'qa',
  refused: 'welder',
  malformed: { path: '/api/week.csv?from=monday', field: 'query.from' },
});

it('shows this week up to now when none is named', async () => {
  const now = await week();
  expect(now).toMatchObject({
    ...{ from: '2026-10-05', to: '2026-10-11', label: '2026-W41', complete: false },
    ...{ doneJobs: 1, onTimeJobs: 1, lateJobs: 1, entryMedianS: 42 },
  });
  const cell = robotIn(now);
  // Five shifts of 8.5 h less 1 h; nobody stands by on Friday.
  expect([cell?.plannedH, cell?.staffedH]).toEqual([37.5, 30]);
  expect(cell).toMatchObject({ runningH: 1.5, goodCount: 3, scrapCount: 1, runCount: 1 });
  // Four parts of 960 mm at 520 mm/min.
  expect(cell?.arcH).toBeCloseTo((4 * 960) / 520 / 60, 9);
  expect(cell?.lostH).toMatchObject({ waitingParts: 0.25, setUp: 25 / 60, fault: 0 });
  const lost = Object.values(cell?.lostH ?? {}).reduce((sum, hours) => sum + hours, 0);
  expect(lost + (cell?.arcH ?? 0)).toBeCloseTo(37.5, 9);
});

it('shows a cell without a calendar without shares, not as an error', async () => {
  const booth = (await week()).cells.find(({ cellCode }) => cellCode === 'M1');
  expect(booth).toMatchObject({ plannedH: 0, ofPlanned: null, ofStaffed: null, ofRunning: null });
});

it('has nothing in another week, and says that it is over', async () => {
  const before = await week('2026-09-30');
  expect(before).toMatchObject({ from: '2026-09-28', complete: true, doneJobs: 0, lateJobs: 0 });
  expect(robotIn(before)).toMatchObject({ plannedH: 37.5, runningH: 0, arcH: 0 });
});

it('gives the same figures as a table with units', async () => {
  const answer = await manager.get('/api/week.csv?from=2026-10-05');
  expect(answer.headers['content-type']).toContain('text/csv');
  expect(answer.headers['content-disposition']).toContain('week-2026-W41.csv');
  const [header, ...rows] = answer.text.trimEnd().split('\n');
  expect(header).toContain('planned [h],staffed [h],running [h],arc [h],arc of planned [%]');
  expect(rows.map((row) => row.split(',').slice(4, 9))).toContainEqual([
    ...['R1', '"Robot', ' one station"', '37.5', '30'],
  ]);
});
