import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { queueTimes, type WorkingWindow } from './queue-times.js';

const day = 1440;
const shift = (startMin: number, minutes: number, share = 1): WorkingWindow => ({
  startMin,
  endMin: startMin + minutes,
  share,
});
/** Three days of 06:00 to 14:00. */
const days = [0, 1, 2].map((each) => shift(each * day + 360, 480));
const work = (...minutes: number[]) => minutes.map((workMin) => ({ workMin }));

function timesOf(...args: Parameters<typeof queueTimes>) {
  const answer = queueTimes(...args);
  if (!answer.ok) throw new Error(answer.refusal.allowed);
  return answer.times.map(({ startMin, finishMin }) => [startMin, finishMin]);
}

/** Each expectation is worked by hand as a sum of minutes. */
describe('independent: times of a queue by hand', () => {
  it('lays steps one after the other and lets one run on in the next window', () => {
    expect(timesOf({ fromMin: 420, windows: days, steps: work(250, 185, 90) })).toEqual([
      [420, 670],
      [670, day + 360 + 15],
      [day + 375, day + 465],
    ]);
  });
  it('starts in the next window what would start at the end of one, and finishes at the end what just fits', () => {
    expect(timesOf({ fromMin: 0, windows: days, steps: work(480, 10) })).toEqual([
      [360, 840],
      [day + 360, day + 370],
    ]);
  });
  it('stretches work by the share of a window', () => {
    // 525.8 job minutes at 360 of 450 planned minutes a day: 166 minutes into the second one, from 07:00 each.
    const windows = [0, 1].map((each) => shift(each * day, 450, 360 / 450));
    const [, , last] = timesOf({ fromMin: 0, windows, steps: work(250, 185, 90.8) });
    expect(last?.[1]).toBeCloseTo(day + 165.8 / 0.8, 9);
  });
  it('waits for another cell and lets those behind wait as well', () => {
    const steps = [{ workMin: 60 }, { workMin: 30, notBeforeMin: 600 }, { workMin: 30 }];
    expect(timesOf({ fromMin: 360, windows: days, steps })).toEqual([
      [360, 420],
      [600, 630],
      [630, 660],
    ]);
  });
  it('gives no time where the windows have none left, and none at all to a cell without hours', () => {
    expect(timesOf({ fromMin: 0, windows: days.slice(0, 1), steps: work(470, 20, 5) })).toEqual([
      [360, 830],
      [830, null],
      [null, null],
    ]);
    expect(timesOf({ fromMin: 0, windows: [], steps: work(1, 0) })).toEqual([
      [null, null],
      [null, null],
    ]);
  });
  it.each([
    ['fromMin', { fromMin: Number.NaN, windows: days, steps: [] }],
    ['steps.0.workMin', { fromMin: 0, windows: days, steps: work(-1) }],
    ['windows.0.share', { fromMin: 0, windows: [shift(0, 60, 0)], steps: [] }],
    ['windows.0.share', { fromMin: 0, windows: [shift(0, 60, 1.1)], steps: [] }],
    ['windows.0', { fromMin: 0, windows: [shift(0, 0)], steps: [] }],
    ['windows.1', { fromMin: 0, windows: [shift(0, 60), shift(59, 60)], steps: [] }],
  ])('refuses %s by name', (argument, inputs) => {
    expect(queueTimes(inputs)).toMatchObject({ ok: false, refusal: { argument } });
  });
});

describe('queueTimes, whatever the calendar', () => {
  const windows = fc
    .array(
      fc.record({
        gapMin: fc.integer({ min: 0, max: 5000 }),
        lengthMin: fc.integer({ min: 1, max: 900 }),
        share: fc.double({ min: 0.05, max: 1, noNaN: true }),
      }),
      { maxLength: 25 },
    )
    .map((rows) => {
      let at = 0;
      return rows.map(({ gapMin, lengthMin, share }) => {
        const startMin = at + gapMin;
        at = startMin + lengthMin;
        return { startMin, endMin: at, share };
      });
    });
  const step = fc.record(
    {
      workMin: fc.double({ min: 0, max: 2000, noNaN: true }),
      notBeforeMin: fc.integer({ min: 0, max: 60_000 }),
    },
    { requiredKeys: ['workMin'] },
  );
  const steps = fc.array(step, { maxLength: 12 });
  const fromMin = fc.integer({ min: 0, max: 20_000 });
  const late = (minute: number | null | undefined) => minute ?? Infinity;

  it('independent: the minutes of the windows between start and finish, summed another way, hold the work', () => {
    fc.assert(
      fc.property(fromMin, windows, steps, (from, spans, queue) => {
        let before = from;
        timesOf({ fromMin: from, windows: spans, steps: queue }).forEach(([start, finish], at) => {
          if (typeof start !== 'number' || typeof finish !== 'number') return;
          expect(start).toBeGreaterThanOrEqual(before);
          expect(spans.some((each) => each.startMin <= start && start < each.endMin)).toBe(true);
          expect(spans.some((each) => each.startMin <= finish && finish <= each.endMin)).toBe(true);
          const worked = spans.reduce((sum, each) => {
            const within = Math.min(each.endMin, finish) - Math.max(each.startMin, start);
            return sum + Math.max(0, within) * each.share;
          }, 0);
          expect(worked).toBeCloseTo(queue[at]!.workMin, 5);
          before = finish;
        });
      }),
    );
  });
  it('never makes anything earlier when work is added', () => {
    fc.assert(
      fc.property(fromMin, windows, steps, step, fc.nat(12), (from, spans, queue, added, place) => {
        const at = Math.min(place, queue.length);
        const before = timesOf({ fromMin: from, windows: spans, steps: queue });
        const longer = queue.toSpliced(at, 0, added);
        const after = timesOf({ fromMin: from, windows: spans, steps: longer }).toSpliced(at, 1);
        before.forEach(([start, finish], each) => {
          expect(late(after[each]?.[0])).toBeGreaterThanOrEqual(late(start) - 1e-6);
          expect(late(after[each]?.[1])).toBeGreaterThanOrEqual(late(finish) - 1e-6);
        });
      }),
    );
  });
});
