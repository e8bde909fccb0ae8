import { describe, expect, it } from 'vitest';
import { keepTimes, minuteOf, plannedTimes, restMin, windowsByCell } from './lane-times.js';

/** An invented shop; the times are sums of minutes worked by hand. Monday 5 October 2026, 06:00 in Berlin. */
const monday = minuteOf('2026-10-05T04:00:00.000Z');
const shift = (from: string, to: string) => ({ from, to, share: 1, staffed: true });
const hours = [
  shift('2026-10-05T04:00:00.000Z', '2026-10-05T12:00:00.000Z'),
  shift('2026-10-06T04:00:00.000Z', '2026-10-06T12:00:00.000Z'),
];
const windows = windowsByCell([
  { cellId: 'M1', windows: hours },
  { cellId: 'R1', windows: hours },
]);
const work = { setUpMin: 20, quantity: 10, goodCount: 0, scrapCount: 0 };
const step = (id: string, jobId: string, stepNumber: number, plannedMin: number) => ({
  ...{ id, jobId, stepNumber, plannedMin },
  ...work,
});
function ahead(lanes: Parameters<typeof plannedTimes>[0]['lanes']) {
  const times = plannedTimes({ lanes, windows, nowMin: monday });
  return Object.fromEntries(
    [...times].map(([id, { startMin, finishMin }]) => [
      id,
      [startMin, finishMin].map((minute) => (minute === null ? null : minute - monday)),
    ]),
  );
}

describe('restMin', () => {
  it('is all until a part is made, then the rest of the running time', () => {
    const planned = { ...work, plannedMin: 120 };
    expect(restMin(planned)).toBe(120);
    expect(restMin({ ...planned, goodCount: 4, scrapCount: 1 })).toBe(50);
    expect(restMin({ ...planned, goodCount: 10 })).toBe(0);
    expect(restMin({ ...planned, goodCount: 12 })).toBe(0);
  });
});

describe('plannedTimes', () => {
  it('walks every queue in its order over the night', () => {
    const lane = { cellId: 'M1', steps: [step('a', 'A', 10, 450), step('b', 'B', 10, 60)] };
    expect(ahead([lane])).toEqual({ a: [0, 450], b: [450, 1440 + 30] });
  });
  it('starts a later step of a job once the earlier one is done at its own cell', () => {
    const booth = { cellId: 'M1', steps: [step('x', 'X', 10, 30), step('a10', 'A', 10, 100)] };
    const robot = { cellId: 'R1', steps: [step('a20', 'A', 20, 60), step('b', 'B', 10, 10)] };
    const times = { x: [0, 30], a10: [30, 130], a20: [130, 190], b: [190, 200] };
    expect(ahead([booth, robot])).toEqual(times);
    expect(ahead([robot, booth])).toEqual(times);
  });
  it('has no time for what waits in a circle, nor beyond the calendar, nor at a cell without hours', () => {
    const circle = [
      { cellId: 'M1', steps: [step('b20', 'B', 20, 10), step('a10', 'A', 10, 10)] },
      { cellId: 'R1', steps: [step('a20', 'A', 20, 10), step('b10', 'B', 10, 10)] },
    ];
    expect(new Set(Object.values(ahead(circle)).flat())).toEqual(new Set([null]));
    const long = { cellId: 'M1', steps: [step('a', 'A', 10, 1000), step('b', 'B', 10, 1)] };
    expect(ahead([long])).toEqual({ a: [0, null], b: [null, null] });
    expect(ahead([{ cellId: 'M9', steps: [step('a', 'A', 10, 5)] }])).toEqual({ a: [null, null] });
  });
});

it('keeps the times that did not move as they were', () => {
  const times = (minutes: number) =>
    plannedTimes({
      lanes: [{ cellId: 'M1', steps: [step('a', 'j1', 1, 60), step('b', 'j2', 1, minutes)] }],
      ...{ windows, nowMin: monday },
    });
  const [former, next] = [times(90), times(120)];
  const kept = keepTimes(former, next);
  expect(kept).toEqual(next);
  expect(kept.get('a')).toBe(former.get('a'));
  expect(kept.get('b')).not.toBe(former.get('b'));
});
