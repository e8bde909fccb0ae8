import { describe, expect, it } from 'vitest';
import { measureCell, type WeekRun } from './measure.js';
import { weekOf } from './span.js';
import { weekTable } from './table.js';

const zone = 'Europe/Berlin';
const week = weekOf('2026-10-07', zone);
const window = { start: week.start, end: week.end };
const at = (iso: string) => new Date(iso);

describe('weekOf', () => {
  // Printed calendars: 5 October 2026 is the Monday of ISO week 41; 1 January 2027 falls in 2026-W53.
  it.each([
    ['2026-10-05', '2026-10-05', '2026-10-11', '2026-W41'],
    ['2026-10-11', '2026-10-05', '2026-10-11', '2026-W41'],
    ['2027-01-01', '2026-12-28', '2027-01-03', '2026-W53'],
    ['2027-01-04', '2027-01-04', '2027-01-10', '2027-W01'],
  ])('%s lies in %s to %s, %s', (day, from, to, label) => {
    expect(weekOf(day, zone)).toMatchObject({ from, to, label });
  });

  it('has 169 hours where summer time ends', () => {
    // In the European Union on the last Sunday of October: 25 October 2026.
    const { start, end } = weekOf('2026-10-20', zone);
    expect((end.getTime() - start.getTime()) / 3_600_000).toBe(169);
  });
});

const run: WeekRun = {
  startedAt: at('2026-10-05T05:00:00Z'),
  endedAt: at('2026-10-05T09:00:00Z'),
  goodCount: 20,
  reworkCount: 1,
  scrapCount: 1,
  setUpMin: 25,
  arcS: 5400,
  arcSPerPart: 110,
  arcSource: 'counted',
  stops: [],
  counts: null,
};
const measure = (runs: WeekRun[], plannedMin = 480, staffedMin = plannedMin) =>
  measureCell({ plannedMin, staffedMin, runs, window });
const sumOf = (lost: Record<string, number>) => Object.values(lost).reduce((a, b) => a + b, 0);

describe('measureCell', () => {
  it('tells the hours of a run apart, and the causes and the arc make up the plan', () => {
    const stops = [
      {
        cause: 'break',
        startedAt: at('2026-10-05T06:00:00Z'),
        endedAt: at('2026-10-05T06:15:00Z'),
      },
      {
        cause: 'fault',
        startedAt: at('2026-10-05T07:00:00Z'),
        endedAt: at('2026-10-05T07:30:00Z'),
      },
    ] as const;
    const cell = measure([{ ...run, stops }]);
    // 240 min - 15 min break = 225 min running; arc 90, set-up 25, fault 30, the rest of 80 is handling.
    expect(cell.runningH).toBeCloseTo(3.75, 9);
    expect(cell.arcH).toBeCloseTo(1.5, 9);
    expect(cell.lostH).toMatchObject({ setUp: 25 / 60, fault: 0.5, handling: 80 / 60 });
    // 480 - 225 min are left without work.
    expect(cell.lostH.noWork).toBeCloseTo(255 / 60, 9);
    expect(sumOf(cell.lostH) + cell.arcH).toBeCloseTo(cell.plannedH, 9);
    expect(cell.ofPlanned).toBeCloseTo(90 / 480, 9);
    expect(cell.ofRunning).toBeCloseTo(90 / 225, 9);
    expect(cell).toMatchObject({ goodCount: 20, reworkCount: 1, scrapCount: 1, runCount: 1 });
    expect(cell.arcSources).toEqual({ countedH: 1.5, typedH: 0, counterH: 0 });
  });

  it('tells what goes beyond the plan as overtime', () => {
    const cell = measure([run], 200);
    expect(cell.overtimeH).toBeCloseTo(40 / 60, 9);
    expect(cell.lostH.noWork).toBe(0);
  });

  it('has no share where nothing was planned', () => {
    expect(measure([], 0)).toMatchObject({ ofPlanned: null, ofStaffed: null, ofRunning: null });
  });

  it('takes the larger of set-up as a stop and as a figure', () => {
    const stops = [
      {
        cause: 'setUp',
        startedAt: at('2026-10-05T05:00:00Z'),
        endedAt: at('2026-10-05T05:40:00Z'),
      },
    ] as const;
    expect(measure([{ ...run, stops }]).lostH.setUp).toBeCloseTo(40 / 60, 9);
  });

  it('clips a run to the week: its counts by their own time, typed arc by its share', () => {
    // Two hours before the week begins in the shop (Sunday 22:00 UTC) and two hours after.
    const across = { startedAt: at('2026-10-04T20:00:00Z'), endedAt: at('2026-10-05T00:00:00Z') };
    const counts = [
      { happenedAt: at('2026-10-04T21:00:00Z'), good: 6, rework: 0, scrap: 0 },
      { happenedAt: at('2026-10-04T23:00:00Z'), good: 4, rework: 0, scrap: 1 },
    ];
    const counted = measure([{ ...run, ...across, counts, arcS: 1210 }]);
    expect(counted.runningH).toBeCloseTo(2, 9);
    expect([counted.goodCount, counted.scrapCount]).toEqual([4, 1]);
    expect(counted.arcH).toBeCloseTo((5 * 110) / 3600, 9);
    const typed = measure([{ ...run, ...across, counts, arcSource: 'typed', arcS: 3600 }]);
    expect(typed.arcSources.typedH).toBeCloseTo(0.5, 9);
  });

  it('lets a run in work go on to the end of the window', () => {
    const soFar = { start: window.start, end: at('2026-10-05T06:30:00Z') };
    const open = { ...run, endedAt: null, counts: [] };
    const cell = measureCell({ plannedMin: 90, staffedMin: 90, runs: [open], window: soFar });
    expect(cell.runningH).toBeCloseTo(1.5, 9);
  });
});

describe('weekTable', () => {
  const cell = { cellId: 'id', cellCode: 'R1', cellName: '=1+1', ...measure([run]) };
  const table = weekTable({
    ...{ from: week.from, to: week.to, label: week.label, complete: true, cells: [cell] },
    ...{ lateJobs: 0, doneJobs: 0, onTimeJobs: 0, entryMedianS: null },
  });
  const [header = [], row = []] = table
    .trimEnd()
    .split('\n')
    .map((line) => line.split(','));
  const value = (name: string) => row[header.indexOf(name)];

  it('names units in its header and writes a row per cell', () => {
    expect(value('week')).toBe('2026-W41');
    expect(value('planned [h]')).toBe('8');
    expect(value('arc of planned [%]')).toBe('18.75');
    expect(header).toContain('lost waiting for parts [h]');
    expect(table.trimEnd().split('\n')).toHaveLength(2);
  });

  it.each(['=1+1', '+1', '-1', '@cmd'])('keeps %s text in a spreadsheet', (cellName) => {
    const guarded = weekTable({
      ...{ from: '', to: '', label: '', complete: true, cells: [{ ...cell, cellName }] },
      ...{ lateJobs: 0, doneJobs: 0, onTimeJobs: 0, entryMedianS: null },
    });
    expect(guarded).toContain(`,'${cellName},`);
  });
});
