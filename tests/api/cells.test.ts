import type { Cell, CellHours } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let manager: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  manager = await shop.as('manager');
});
afterAll(async () => shop.close());

const cellBody = {
  code: 'M9',
  name: 'Booth',
  kind: 'booth',
  processes: ['135'],
  mechanisation: 'partlyMechanised',
};
const early = { weekday: 1, startTime: '06:00', endTime: '14:00', breakMin: 30, staffed: true };
const night = { weekday: 1, startTime: '22:00', endTime: '06:00', breakMin: 30, staffed: true };

let serial = 100;
async function added(changes: object = {}): Promise<Cell> {
  const code = `M${(serial += 1)}`;
  const answer = await manager.post('/api/cells').send({ ...cellBody, code, ...changes });
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body;
}
async function set(cell: Cell, calendar: { shifts?: object[]; dayChanges?: object[] }) {
  return manager
    .put(`/api/cells/${cell.id}/calendar`)
    .send({ shifts: [], dayChanges: [], expectedVersion: cell.version, ...calendar });
}
const listed = async (id: string): Promise<Cell> =>
  (await manager.get('/api/cells')).body.cells.find((cell: Cell) => cell.id === id);

describe('doors', () => {
  let cell: Cell;
  beforeAll(async () => {
    cell = await added();
  });
  const doors = () => shop;
  firstFour('cells', doors, { method: 'get', path: () => '/api/cells', allowed: 'welder' });
  firstFour('working hours', doors, {
    method: 'get',
    path: () => '/api/working-hours',
    allowed: 'welder',
    malformed: { path: '/api/working-hours?days=0', field: 'query.days' },
  });
  firstFour('add a cell', doors, {
    method: 'post',
    path: () => '/api/cells',
    body: () => cellBody,
    allowed: 'manager',
    refused: 'office',
    malformed: { body: { ...cellBody, kind: 'tent' }, field: 'body.kind' },
  });
  firstFour('change a cell', doors, {
    method: 'patch',
    path: () => `/api/cells/${cell.id}`,
    body: () => ({ name: 'Booth by the door', expectedVersion: 1 }),
    allowed: 'manager',
    refused: 'welder',
    malformed: { body: { name: 'Booth' }, field: 'body.expectedVersion' },
  });
  firstFour('set a calendar', doors, {
    method: 'put',
    path: () => `/api/cells/${cell.id}/calendar`,
    body: () => ({ shifts: [early], dayChanges: [], expectedVersion: 2 }),
    allowed: 'manager',
    refused: 'qa',
    malformed: {
      body: { shifts: [{ ...early, startTime: '24:00' }], dayChanges: [], expectedVersion: 2 },
      field: 'body.shifts.0.startTime',
    },
  });
});

describe('cells', () => {
  it('are read at a registered tablet with nobody signed in', async () => {
    const answer = await (await shop.tablet('R1')).get('/api/cells');
    expect(answer.status).toBe(200);
    expect(answer.body.cells.map((cell: Cell) => cell.code)).toContain('R1');
  });
  it('change in the named field alone', async () => {
    const cell = await added({ stations: 2, planningFactor: 0.7, extraction: 'Hood on' });
    const answer = await manager
      .patch(`/api/cells/${cell.id}`)
      .send({ name: "O'Neil <b>", expectedVersion: 1 });
    expect(answer.body).toEqual({ ...cell, name: "O'Neil <b>", version: 2 });
    expect(await listed(cell.id)).toEqual(answer.body);
  });
  it('answer a stale change with the row as it stands, and keep it', async () => {
    const cell = await added();
    const path = `/api/cells/${cell.id}`;
    await manager.patch(path).send({ stations: 2, expectedVersion: 1 }).expect(200);
    const late = await manager.patch(path).send({ stations: 1, expectedVersion: 1 });
    expect([late.status, late.body.code]).toEqual([409, 'STALE']);
    expect(late.body.current).toMatchObject({ id: cell.id, version: 2, stations: 2 });
    expect((await listed(cell.id)).stations).toBe(2);
  });
  it('have codes of their own', async () => {
    const first = await added();
    const second = await added();
    for (const answer of [
      await manager.post('/api/cells').send({ ...cellBody, code: first.code }),
      await manager
        .patch(`/api/cells/${second.id}`)
        .send({ code: first.code, expectedVersion: second.version }),
    ]) {
      expect([answer.status, answer.body.code]).toEqual([409, 'DUPLICATE']);
      expect(answer.body.fields[0]).toMatchObject({ field: 'body.code', given: first.code });
    }
    expect((await listed(second.id)).code).toBe(second.code);
  });
  it('are told apart from ones that do not exist', async () => {
    const edit = await manager
      .patch(`/api/cells/${unknownId}`)
      .send({ name: 'Booth', expectedVersion: 1 });
    const calendar = await set({ ...shop.cells.R1, id: unknownId }, {});
    expect([edit.status, edit.body.code]).toEqual([404, 'NOT_FOUND']);
    expect([calendar.status, calendar.body.code]).toEqual([404, 'NOT_FOUND']);
  });
  it.each([
    ['control characters', 'Booth\u0007'],
    ['too much text', 'x'.repeat(81)],
  ])('refuse %s in a name', async (_case, name) => {
    const answer = await manager.post('/api/cells').send({ ...cellBody, code: 'M77', name });
    expect(answer.status).toBe(400);
    expect(answer.body.fields[0].field).toBe('body.name');
  });
});

describe('a calendar', () => {
  it('is replaced as a whole, in the order of the week, and noted with its reason', async () => {
    const cell = await added();
    const saturday = { day: '2026-10-10', kind: 'overtime', minutes: 240, reason: 'late order' };
    const first = await set(cell, { shifts: [night, early], dayChanges: [saturday] });
    expect(first.status, first.body.message).toBe(200);
    expect(first.body.calendar).toEqual({ shifts: [early, night], dayChanges: [saturday] });
    const late = { ...early, startTime: '14:00', endTime: '22:00' };
    const answer = await manager
      .put(`/api/cells/${cell.id}/calendar`)
      .send({ shifts: [late], dayChanges: [], expectedVersion: 2, reason: 'second shift only' });
    expect(answer.body.calendar).toEqual({ shifts: [late], dayChanges: [] });
    expect(answer.body.version).toBe(3);
    const { body } = await manager.get(`/api/history/cell/${cell.id}`);
    expect(body.entries[0]).toMatchObject({
      type: 'cell.calendarSet',
      actorCode: 'M01',
      reason: 'second shift only',
      before: { shifts: [early, night], dayChanges: [saturday] },
      after: { shifts: [late], dayChanges: [] },
    });
  });
  it('of an older version is not taken', async () => {
    const cell = await added();
    await set(cell, { shifts: [early] });
    const late = await set(cell, { shifts: [night] });
    expect([late.status, late.body.code]).toEqual([409, 'STALE']);
    expect(late.body.current.calendar.shifts).toEqual([early]);
  });
  it.each([
    ['the same hours twice', [early, early], 'Monday 06:00-14:00'],
    [
      'two shifts of one day',
      [early, { ...early, startTime: '13:00', endTime: '21:00' }],
      'Monday 06:00-14:00',
    ],
    [
      'a night and the next morning',
      [night, { ...early, weekday: 2, startTime: '05:00' }],
      'Monday 22:00-06:00',
    ],
    [
      "Sunday's night and Monday morning",
      [
        { ...early, startTime: '05:00' },
        { ...night, weekday: 7 },
      ],
      'Monday 05:00-14:00',
    ],
  ])('does not hold %s', async (_case, shifts, other) => {
    const answer = await set(await added(), { shifts });
    expect([answer.status, answer.body.code]).toEqual([400, 'INVALID']);
    expect(answer.body.fields[0].field).toBe('body.shifts.1');
    expect(answer.body.message).toContain(`overlaps ${other}`);
  });
  it('holds shifts that follow on each other, past midnight and over the end of the week', async () => {
    const shifts = [
      early,
      { ...early, startTime: '14:00', endTime: '22:00' },
      night,
      { ...early, weekday: 2 },
      { ...night, weekday: 7 },
    ];
    expect((await set(await added(), { shifts })).status).toBe(200);
  });
  it.each([
    [{ shifts: [{ ...early, endTime: '06:00' }] }, 'body.shifts.0.endTime'],
    [{ shifts: [{ ...early, breakMin: 480 }] }, 'body.shifts.0.breakMin'],
    [
      { dayChanges: [{ day: '2026-10-10', kind: 'overtime', minutes: 0, reason: 'x' }] },
      'body.dayChanges.0.minutes',
    ],
    [
      { dayChanges: [{ day: '2026-10-10', kind: 'down', minutes: 1441, reason: 'x' }] },
      'body.dayChanges.0.minutes',
    ],
    [
      { dayChanges: [{ day: '2027-02-29', kind: 'closed', minutes: 0, reason: 'x' }] },
      'body.dayChanges.0.day',
    ],
  ])('cannot mean %j', async (calendar, field) => {
    const answer = await set(await added(), calendar);
    expect([answer.status, answer.body.code]).toEqual([400, 'INVALID']);
    expect(answer.body.fields[0].field).toBe(field);
  });
});

describe('working hours', () => {
  const hoursOf = async (cell: Cell, query = ''): Promise<CellHours | undefined> => {
    const answer = await manager.get(`/api/working-hours${query}`);
    expect(answer.status, answer.body.message).toBe(200);
    return answer.body.cells.find((each: CellHours) => each.cellId === cell.id);
  };

  it('start now, take breaks and the planning factor in, and say what is lost and why', async () => {
    const cell = await added({ planningFactor: 0.8 });
    await set(cell, {
      shifts: [early, { ...early, weekday: 2 }, { ...early, weekday: 3 }],
      dayChanges: [
        { day: '2026-10-06', kind: 'closed', minutes: 0, reason: 'Town fair' },
        { day: '2026-10-07', kind: 'overtime', minutes: 60, reason: 'Rush' },
      ],
    });
    const hours = await hoursOf(cell, '?days=3');
    // The shop's clock stands at Monday 07:00 in Berlin; 450 planned minutes in 480, of which 0.8 become work.
    expect(hours?.windows.map(({ from, to }) => [from, to])).toEqual([
      ['2026-10-05T05:00:00.000Z', '2026-10-05T12:00:00.000Z'],
      ['2026-10-07T04:00:00.000Z', '2026-10-07T12:00:00.000Z'],
      ['2026-10-07T12:00:00.000Z', '2026-10-07T13:00:00.000Z'],
    ]);
    expect(hours?.windows[0]?.share).toBeCloseTo((450 / 480) * 0.8, 12);
    expect(hours?.windows[2]?.share).toBe(0.8);
    expect(hours?.losses.map(({ day, reason }) => [day, reason])).toEqual([
      ['2026-10-06', 'Town fair'],
    ]);
  });
  it('keep to the clock of the shop when it changes in the night', async () => {
    const cell = await added();
    await set(cell, { shifts: [{ ...night, weekday: 6 }] });
    const hours = await hoursOf(cell, '?from=2026-10-24T00:00:00Z&days=2');
    expect(hours?.windows.map(({ from, to }) => [from, to])).toEqual([
      ['2026-10-24T20:00:00.000Z', '2026-10-25T05:00:00.000Z'],
    ]);
  });
  it('are none for a cell without shifts, and leave cells out that are not in use', async () => {
    const cell = await added();
    expect(await hoursOf(cell)).toEqual({ cellId: cell.id, windows: [], losses: [] });
    await manager
      .patch(`/api/cells/${cell.id}`)
      .send({ active: false, expectedVersion: cell.version })
      .expect(200);
    expect(await hoursOf(cell)).toBeUndefined();
  });
});
