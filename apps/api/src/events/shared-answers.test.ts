import { expect, it } from 'vitest';
import { shareAnswers } from './shared-answers.js';

function shop() {
  let now = Date.parse('2026-10-05T06:00:00Z');
  let commit = () => {};
  const shared = shareAnswers(
    {
      onCommit(listener) {
        commit = listener;
        return () => undefined;
      },
    },
    { now: () => new Date(now) },
  );
  let worked = 0;
  return {
    ask: async (question = 'board') => shared(question, async () => (worked += 1)),
    shared,
    commit: () => commit(),
    pass: (ms: number) => (now += ms),
  };
}

it('works once for everybody who asks between two commits', async () => {
  const { ask } = shop();
  expect(await Promise.all([ask(), ask(), ask()])).toEqual([1, 1, 1]);
  expect(await ask()).toBe(1);
  expect(await ask('week')).toBe(2);
});

it('works anew after a commit, also for work that was under way', async () => {
  const { ask, commit } = shop();
  const before = ask();
  commit();
  expect(await Promise.all([before, ask()])).toEqual([1, 2]);
  expect(await ask()).toBe(2);
});

it('works anew when time has passed', async () => {
  const { ask, pass } = shop();
  await ask();
  pass(4_999);
  expect(await ask()).toBe(1);
  pass(1);
  expect(await ask()).toBe(2);
});

it('does not keep a failure', async () => {
  const { shared, ask } = shop();
  await expect(shared('board', async () => Promise.reject(new Error('once')))).rejects.toThrow(
    'once',
  );
  expect(await ask()).toBe(1);
});
