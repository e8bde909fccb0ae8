import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadByPeriod } from './load.js';
import type { WorkingWindow } from './queue-times.js';

const day = 1440;
/** Two days of 06:00 to 14:00, of which four fifths are worked. */
const windows: WorkingWindow[] = [0, 1].map((at) => ({
  ...{ startMin: at * day + 360, endMin: at * day + 840, share: 0.8 },
}));

function loadOf(...args: Parameters<typeof loadByPeriod>) {
  const load = loadByPeriod(...args);
  if (!load.ok) throw new Error(load.refusal.allowed);
  return load;
}

describe('independent: load by period, worked by hand', () => {
  it('fills 384 minutes of a day and carries the rest over', () => {
    const { periods, elsewhereMin } = loadOf({
      ...{ fromMin: 0, windows, edgesMin: [0, day, 2 * day] },
      steps: [{ workMin: 300 }, { workMin: 200 }],
    });
    expect(periods.map(({ openMin, loadMin }) => [openMin, loadMin])).toEqual([
      [384, 384],
      [384, 116],
    ]);
    expect(elsewhereMin).toBe(0);
  });

  it('counts no wait as load, and only what is left of today as open', () => {
    const [today, tomorrow] = loadOf({
      ...{ fromMin: 600, windows, edgesMin: [0, day, 2 * day] },
      steps: [{ workMin: 80 }, { workMin: 40, notBeforeMin: day }],
    }).periods;
    expect([today?.openMin, today?.loadMin, tomorrow?.loadMin]).toEqual([192, 80, 40]);
  });

  it('tells the work that finds no working time', () => {
    const load = loadOf({
      ...{ fromMin: 0, windows, edgesMin: [0, 2 * day], steps: [{ workMin: 900 }] },
    });
    expect(load.periods[0]?.loadMin).toBe(768);
    expect(load.elsewhereMin).toBe(132);
  });

  it('refuses edges that do not rise', () => {
    const load = loadByPeriod({ fromMin: 0, windows, steps: [], edgesMin: [0, day, day] });
    expect(load).toMatchObject({ ok: false, refusal: { argument: 'edgesMin.2', given: day } });
  });

  it('loses no minute and fills no period beyond its working time', () => {
    const work = fc.array(
      fc.record({ workMin: fc.integer({ min: 0, max: 400 }), notBeforeMin: fc.nat(2 * day) }),
    );
    fc.assert(
      fc.property(work, fc.nat(day), (steps, fromMin) => {
        const edgesMin = [0, 500, day, 2 * day];
        const { periods, elsewhereMin } = loadOf({ fromMin, windows, steps, edgesMin });
        const placed = periods.reduce((sum, { loadMin }) => sum + loadMin, 0);
        const total = steps.reduce((sum, { workMin }) => sum + workMin, 0);
        expect(placed + elsewhereMin).toBeCloseTo(total, 6);
        for (const { loadMin, openMin } of periods) {
          expect(loadMin).toBeLessThanOrEqual(openMin + 1e-6);
        }
      }),
    );
  });
});
