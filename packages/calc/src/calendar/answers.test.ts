import { expect, it } from 'vitest';
import { loadByPeriod } from './load.js';
import { queueTimes, type WorkingWindow } from './queue-times.js';

const windows: WorkingWindow[] = [{ startMin: 0, endMin: 480, share: 1 }];

it('names what its times and its load rest on', () => {
  const steps = [{ workMin: 60 }];
  expect(queueTimes({ fromMin: 0, windows, steps })).toMatchObject({ sources: ['calendarWalk'] });
  const load = loadByPeriod({ fromMin: 0, windows, steps, edgesMin: [0, 480] });
  expect(load).toMatchObject({ ok: true, sources: ['calendarWalk'] });
});

it('says in words what it takes', () => {
  const answer = (changes: object) => {
    const odd = queueTimes({ fromMin: 0, windows, steps: [], ...changes });
    return odd.ok ? null : [odd.refusal.argument, odd.refusal.allowed];
  };
  expect(answer({ fromMin: 2e9 })).toEqual([
    ...['fromMin', 'a number from -1000000000 to 1000000000 min'],
  ]);
  expect(answer({ windows: [{ ...windows[0], share: 2 }] })).toEqual([
    ...['windows.0.share', 'a number from 0.000001 to 1'],
  ]);
  expect(answer({ windows: [windows[0], windows[0]] })).toEqual([
    'windows.1',
    'windows that end after they start and begin at or after the end of the one before',
  ]);
  expect(loadByPeriod({ fromMin: 0, windows, steps: [], edgesMin: [0, 0] })).toEqual({
    ok: false,
    refusal: { argument: 'edgesMin.1', given: 0, allowed: 'edges that rise' },
  });
  const refused = loadByPeriod({ fromMin: 2e9, windows, steps: [], edgesMin: [0, 1] });
  expect(refused).toMatchObject({ ok: false, refusal: { argument: 'fromMin' } });
});

it('independent, by hand: 600 min of work fill the 480 that the calendar has, and 120 fall nowhere', () => {
  const inputs = { fromMin: 0, steps: [{ workMin: 600 }], edgesMin: [0, 240, 960] };
  expect(loadByPeriod({ ...inputs, windows })).toMatchObject({
    ...{ elsewhereMin: 120 },
    periods: [
      { openMin: 240, loadMin: 240 },
      { openMin: 240, loadMin: 240 },
    ],
  });
  // Of work without any window, all falls nowhere.
  expect(loadByPeriod({ ...inputs, windows: [] })).toMatchObject({
    ...{ elsewhereMin: 600 },
    periods: [{ openMin: 0, loadMin: 0 }, { loadMin: 0 }],
  });
});
