import { expect, it } from 'vitest';
import { Rounds } from './rounds.js';

it('takes an answer while a newer question is on its way: where changes never end there always is one', () => {
  const rounds = new Rounds();
  let before = rounds.told();
  let taken = 0;
  for (let change = 0; change < 5; change += 1) {
    const next = rounds.told();
    if (rounds.take(before)) taken += 1;
    before = next;
  }
  expect(taken).toBe(5);
});

it('drops an answer that comes after a newer one', () => {
  const rounds = new Rounds();
  const [slow, quick] = [rounds.told(), rounds.told()];
  expect(rounds.take(quick)).toBe(true);
  expect(rounds.take(slow)).toBe(false);
});

it('drops what was fetched before an act here, which it cannot know of', () => {
  const rounds = new Rounds();
  const before = rounds.told();
  const after = rounds.asked();
  expect(rounds.take(before)).toBe(false);
  expect(rounds.take(after)).toBe(true);
  expect(rounds.take(rounds.told())).toBe(true);
});

it('knows the newest, whose end means that nothing is under way', () => {
  const rounds = new Rounds();
  const [first, second] = [rounds.asked(), rounds.told()];
  expect([rounds.isNewest(first), rounds.isNewest(second)]).toEqual([false, true]);
});
