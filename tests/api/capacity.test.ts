import type { Capacity, Takt } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { monday, startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { boothStep } from '../support/repeat-part.js';
import { robotShop, type RobotShop } from '../support/robot-shop.js';

let shop: TestShop;
let robot: RobotShop;
let office: Agent;

/** Eight welds of 120 mm at 520 mm/min, 1.5 s for each start, 131 s of moves, cleaning and loading. */
const cycleMin = 960 / 520 + (8 * 1.5 + 30 + 6 + 95) / 60;
const setUpMin = 40;
/** Planned times are kept to a tenth of a minute. */
const planned = (quantity: number) => Math.round((setUpMin + quantity * cycleMin) * 10) / 10;
/** 9 m/min of 1.2 mm wire at 7.85 g/cm3 while the arc burns. */
const wirePerPartKg = (9 * (960 / 520) * (Math.PI / 4) * 1.2 ** 2 * 7.85) / 1000;
/** Five shifts of 8.5 h less 1 h, at the planning factor 0.8 of the cell. */
const weekMin = 5 * 450 * 0.8;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  await setShifts([1, 2, 3, 4, 5], { startTime: '07:00', endTime: '15:30', breakMin: 60 });
  await robot.job({ number: 'BR-10', quantity: 300, dueOn: '2026-10-07' });
  await robot.job({ number: 'br-20', quantity: 400, dueOn: '2026-10-09' });
  await robot.job({ number: 'LUG-1', quantity: 700, dueOn: '2026-10-21' });
  const wpsNumber = null;
  await robot.job({ number: 'BOOTH', steps: [{ ...boothStep, wpsNumber }], quantity: 5 });
  office = await shop.as('office');
});
afterAll(async () => shop.close());

async function setShifts(
  weekdays: number[],
  times: { startTime: string; endTime: string; breakMin: number },
): Promise<void> {
  const { cells } = shop.context.services;
  const { version } = await cells.get(shop.cells.R1.id);
  await cells.setCalendar(shop.actor('manager'), shop.cells.R1.id, {
    ...{ expectedVersion: version, reason: null, dayChanges: [] },
    shifts: weekdays.map((weekday) => ({ weekday, staffed: true, ...times })),
  });
}

const capacity = async (): Promise<Capacity> => (await office.get('/api/capacity')).body;
const takt = async (query: string): Promise<Takt> =>
  (await office.get(`/api/capacity/takt?${query}`)).body;
const weeksOf = ({ cells }: Capacity, code: string) =>
  cells.find(({ cellCode }) => cellCode === code)?.weeks ?? [];

firstFour('capacity', () => shop, {
  ...{ method: 'get', path: () => '/api/capacity', allowed: 'qa', refused: 'welder' },
});
firstFour('takt', () => shop, {
  method: 'get',
  path: () => '/api/capacity/takt?family=BR&week=2026-10-05',
  allowed: 'manager',
  refused: 'welder',
  malformed: { path: '/api/capacity/takt?family=BR&week=2026-02-31', field: 'query.week' },
});
it('takt: refuses a family without a letter', async () => {
  const answer = await office.get('/api/capacity/takt?family=%20');
  expect([answer.status, answer.body.fields[0].field]).toEqual([400, 'query.family']);
});

describe('load against capacity', () => {
  it('says what is over, by how much and with which job, and carries it on', async () => {
    const [first, second, third, fourth] = weeksOf(await capacity(), 'R1');
    const askedMin = planned(300) + planned(400);
    expect(first).toMatchObject({ from: '2026-10-05', label: '2026-W41', state: 'over' });
    expect(first?.openMin).toBeCloseTo(weekMin, 6);
    expect(first?.dueMin).toBeCloseTo(askedMin, 6);
    expect(first?.share).toBeCloseTo(askedMin / weekMin, 9);
    // 3040.6 min of 1800: 168.9 %, told as 169 so that what is over is never told as full.
    expect(first?.words).toBe(
      'R1 is asked for 169 % in 2026-W41: 50.7 h of work for 30.0 h. 20.7 h too much with job 2.',
    );
    expect(second).toMatchObject({ state: 'within', dueMin: 0, words: null });
    expect(second?.carriedMin).toBeCloseTo(askedMin - weekMin, 6);
    // The queue itself goes on with the job that is due later.
    const allMin = askedMin + planned(700);
    expect(third?.queuedMin).toBeCloseTo(weekMin, 6);
    expect(fourth?.queuedMin).toBeCloseTo(allMin - 3 * weekMin, 6);
  });

  it('counts only what is left of the week that runs', async () => {
    shop.clock.set('2026-10-08T13:30:00Z');
    office = await shop.as('office');
    const [first] = weeksOf(await capacity(), 'R1');
    shop.clock.set(monday);
    office = await shop.as('office');
    expect(first?.openMin).toBeCloseTo(weekMin / 5, 6);
  });

  it('tells a cell without hours, and gives it no share', async () => {
    const answer = await capacity();
    const [first] = weeksOf(answer, 'M1');
    expect(first).toMatchObject({ openMin: 0, share: null, state: 'noHours' });
    expect(first?.words).toMatch(/^M1 has no hours in 2026-W41, and .* of work are due: job 4\.$/);
    expect(answer.cells.find(({ cellCode }) => cellCode === 'M1')?.laterMin).toBe(first?.dueMin);
  });
});

describe('takt of a family', () => {
  it('stands beside the planned cycle, and says what is short', async () => {
    const answer = await takt('family=BR&week=2026-10-07');
    expect(answer).toMatchObject({
      from: '2026-10-05',
      label: '2026-W41',
      demand: 700,
      jobCount: 2,
    });
    const [cell] = answer.cells;
    expect(cell).toMatchObject({ cellCode: 'R1', demand: 700, state: 'beyond' });
    expect(cell?.taktS).toBeCloseTo((weekMin * 60) / 700, 6);
    expect(cell?.cycleS).toBeCloseTo(cycleMin * 60, 2);
    expect(cell?.shortMin).toBeCloseTo(planned(300) + planned(400) - 2 * setUpMin - weekMin, 6);
  });

  it('gives none to a cell without hours', async () => {
    const [cell] = (await takt('family=booth')).cells;
    expect(cell).toMatchObject({ cellCode: 'M1', openMin: 0, taktS: null, state: 'unknown' });
  });

  it('is empty where nothing of the family is due, whatever signs it holds', async () => {
    expect(await takt('family=BR&week=2027-01-04')).toMatchObject({ demand: 0, cells: [] });
    expect(await takt('family=%25')).toMatchObject({ demand: 0, cells: [] });
  });
});

describe('consumables of the queue', () => {
  it('says how much is short, of what, on which day and where', async () => {
    const { consumables, stepsUnknown } = await capacity();
    const wire = consumables.find(({ itemId }) => itemId === robot.wireItemId);
    const neededKg = 1400 * wirePerPartKg;
    expect(wire).toMatchObject({ loadedAmount: 15, storedAmount: 135 });
    expect(wire?.neededAmount).toBeCloseTo(neededKg, 6);
    // The third job begins after 3040.6 min of work: eight shifts of 360 and some of the ninth.
    const short = Math.round((neededKg - 150) * 1000) / 1000;
    expect(wire?.words).toEqual([
      `Short of ${short} kg of Solid wire 1.2 on Thu 15 Oct 2026 at R1, job 3.`,
    ]);
    const gas = consumables.find(({ itemId }) => itemId === robot.gasItemId);
    expect(gas).toMatchObject({ unit: 'l', shortAmount: 0, words: [] });
    expect(stepsUnknown).toBe(1);
  });
});

describe('a shift over midnight', () => {
  it('gives each week the hours that fall into it', async () => {
    await setShifts([7], { startTime: '22:00', endTime: '06:00', breakMin: 0 });
    const [first, second] = weeksOf(await capacity(), 'R1');
    // At the factor 0.8 an hour holds 48 min. Monday morning's hours since 07:00 are over: two on Sunday evening, then six and two.
    expect([first?.openMin, second?.openMin]).toEqual([2 * 48, 8 * 48]);
    const [cell] = (await takt('family=BR&week=2026-10-05')).cells;
    expect(cell?.openMin).toBe(8 * 48);
  });
});
