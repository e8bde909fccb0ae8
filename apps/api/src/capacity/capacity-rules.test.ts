import { describe, expect, it } from 'vitest';
import { walkQueues } from '../orders/queue-walk.js';
import { weekOf } from '../week/span.js';
import { loadOfCell } from './cell-load.js';
import { shortagesOf } from './shortages.js';
import { familyOf, taktOfCells } from './takt.js';

const weeks = ['2026-10-05', '2026-10-12'].map((day) => weekOf(day, 'UTC'));
const minute = (at: string) => Date.parse(at) / 60_000;
const fromMin = minute('2026-10-05T06:00:00Z');
/** Ten hours of each Monday. */
const windows = ['2026-10-05', '2026-10-12'].map((day) => ({
  ...{ startMin: minute(`${day}T06:00:00Z`), endMin: minute(`${day}T16:00:00Z`), share: 1 },
}));

interface Queued {
  readonly jobNumber: number;
  readonly workMin: number;
  readonly weldBy: string;
}

function loadOf(queue: readonly Queued[], open = windows) {
  const lane = {
    cellId: 'c',
    windows: open,
    steps: queue.map(({ jobNumber, workMin }) => ({
      ...{ id: `${jobNumber}`, jobId: `${jobNumber}`, stepNumber: 1, workMin },
    })),
  };
  const steps = new Map(queue.map((each) => [`${each.jobNumber}`, each]));
  const cell = { cellId: 'c', cellCode: 'R1', cellName: 'Robot' };
  const times = walkQueues([lane], fromMin);
  return loadOfCell({ cell, lane, times, steps, weeks, fromMin });
}

describe('load of a cell', () => {
  it('asks the first week for what is overdue, and no week for what comes later', () => {
    const { weeks: shown } = loadOf([
      { jobNumber: 1, workMin: 60, weldBy: '2026-09-01' },
      { jobNumber: 2, workMin: 90, weldBy: '2026-12-24' },
    ]);
    expect(shown.map(({ dueMin, queuedMin }) => [dueMin, queuedMin])).toEqual([
      [60, 150],
      [0, 0],
    ]);
  });

  it('names six jobs and counts the others', () => {
    const queue = [1, 2, 3, 4, 5, 6, 7, 8, 9].map((jobNumber) => ({
      ...{ jobNumber, workMin: 300, weldBy: '2026-10-07' },
    }));
    const [first, second] = loadOf(queue).weeks;
    // 45 h of 10: the third job and all behind it; the week after is asked for the 35 h left.
    expect(first?.words).toBe(
      'R1 is asked for 450 % in 2026-W41: 45.0 h of work for 10.0 h. 35.0 h too much with jobs 3, 4, 5, 6, 7, 8 and 1 more.',
    );
    expect(second).toMatchObject({ state: 'over', carriedMin: 35 * 60, dueMin: 0 });
  });

  it('is closed where there are neither hours nor work', () => {
    const { weeks: shown, laterMin } = loadOf([], []);
    expect(shown.map(({ state, words }) => [state, words])).toEqual([
      ['closed', null],
      ['closed', null],
    ]);
    expect(laterMin).toBe(0);
  });
});

describe('shortages', () => {
  const items = [{ id: 'w', name: 'Solid wire', unit: 'kg', stock: 2 }];
  const draw = { itemId: 'w', cellId: 'c', cellCode: 'R1', jobNumber: 7 };

  it('says the day, and where no day is known says so', () => {
    const draws = [
      { ...draw, amount: 5.1, day: '2026-10-08' },
      { ...draw, amount: 1, jobNumber: 8, day: null },
    ];
    const [wire] = shortagesOf(draws, {
      items,
      loads: [
        { itemId: 'w', cellId: 'c', leftAmount: 1 },
        { itemId: 'other', cellId: 'c', leftAmount: 50 },
      ],
    });
    expect(wire?.words).toEqual([
      'Short of 2.1 kg of Solid wire on Thu 8 Oct 2026 at R1, job 7.',
      'Short of 1 kg of Solid wire on a day that the calendar does not give at R1, job 8.',
    ]);
    expect(wire).toMatchObject({ loadedAmount: 1, storedAmount: 2, shortAmount: 3.1 });
  });

  it('leaves out what nothing draws on', () => {
    expect(shortagesOf([], { items, loads: [] })).toEqual([]);
  });
});

describe('takt of cells', () => {
  const steps = [{ cellId: 'c', plannedMin: 140, setUpMin: 25, firstPieceMin: 15 }];
  const jobs = [
    { partNumber: 'BR-1', quantity: 20, steps },
    { partNumber: 'XBR-1', quantity: 20, steps },
  ];
  const cell = { id: 'c', code: 'R1', name: 'Robot' };

  it('takes set-up and first piece out of the cycle', () => {
    const family = familyOf(jobs, 'br-');
    expect(family).toHaveLength(1);
    // 100 min for 20 parts; 120 min open: takt 6 min, cycle 5.
    expect(taktOfCells(family, [{ ...cell, openMin: 120 }])).toMatchObject([
      { taktS: 360, cycleS: 300, shortMin: 0, state: 'within' },
    ]);
  });

  it('is beyond where the hours do not hold the demand', () => {
    expect(taktOfCells(jobs, [{ ...cell, openMin: 120 }])).toMatchObject([
      { demand: 40, taktS: 180, cycleS: 300, shortMin: 80, state: 'beyond' },
    ]);
  });
});
