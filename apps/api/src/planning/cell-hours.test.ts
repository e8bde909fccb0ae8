import { describe, expect, it } from 'vitest';
import { openMinutes, plannedHours } from './cell-hours.js';

const start = new Date('2026-10-05T05:00:00Z');
const window = (from: string, to: string, share: number) => ({
  ...{ from: `2026-10-05T${from}:00Z`, to: `2026-10-05T${to}:00Z`, share, staffed: true },
});

describe('hours of a cell as the planner reads them', () => {
  it('are whole where all windows have the same share', () => {
    const windows = [window('05:00', '09:00', 0.75), window('10:00', '12:30', 0.75)];
    expect(plannedHours(windows, start)).toEqual({
      pace: 0.75,
      hours: [
        { fromMin: 0, toMin: 240 },
        { fromMin: 300, toMin: 450 },
      ],
    });
  });

  it('are thinned out hour by hour where another window does more', () => {
    // 0.6 of 0.8 is three quarters of each hour: 45 min, and 15 min of the last 20.
    const windows = [window('05:00', '07:20', 0.6), window('07:20', '08:20', 0.8)];
    const planned = plannedHours(windows, start);
    expect(planned.pace).toBe(0.8);
    expect(planned.hours).toEqual([
      { fromMin: 0, toMin: 45 },
      { fromMin: 60, toMin: 105 },
      { fromMin: 120, toMin: 135 },
      { fromMin: 140, toMin: 200 },
    ]);
  });

  it.each([0.31, 0.5, 0.77, 0.9])('lose no more than half a minute over a shift (%f)', (share) => {
    const planned = plannedHours(
      [window('05:00', '17:20', share), window('18:00', '19:00', 1)],
      start,
    );
    expect(Math.abs(openMinutes(planned) - (740 * share + 60))).toBeLessThanOrEqual(0.5);
  });

  it('say that a cell without windows has none', () => {
    expect(plannedHours([], start)).toEqual({ pace: 0, hours: [] });
  });
});
