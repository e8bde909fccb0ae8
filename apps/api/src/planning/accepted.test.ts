import { describe, expect, it } from 'vitest';
import { changedSteps, newPlaces, type StandingLane } from './accepted.js';

const cellIds = ['R1', 'R2'];
const queue = (cellId: string, ids: string, held = ''): StandingLane => ({
  cellId,
  steps: [...ids].map((id) => ({ id, version: 3, state: held.includes(id) ? 'held' : 'waiting' })),
});
const lanes = [[...'abc'], [...'de']];

describe('what changed since the plan', () => {
  const changed = (standing: StandingLane[], held = '') =>
    changedSteps({ cellIds, lanes, held: new Set(held) }, standing);

  it.each<[string, StandingLane[], string[]]>([
    ['nothing', [queue('R1', 'abc'), queue('R2', 'de')], []],
    ['a new step, wherever it stands', [queue('R1', 'xabc'), queue('R2', 'dye')], []],
    ['a step that is done', [queue('R1', 'ac'), queue('R2', 'de')], ['b']],
    ['a step at another cell', [queue('R1', 'ab'), queue('R2', 'dce')], ['c']],
    ['two that changed places', [queue('R1', 'bac'), queue('R2', 'de')], ['a', 'b']],
    ['a step that was begun', [queue('R1', 'abc', 'a'), queue('R2', 'de')], ['a']],
    ['a queue that is gone', [queue('R1', 'abc')], ['d', 'e']],
  ])('%s', (_what, standing, found) => {
    expect(changed(standing)).toEqual(found);
  });

  it('also a step that was put down', () => {
    expect(changed([queue('R1', 'abc'), queue('R2', 'de')], 'a')).toEqual(['a']);
  });
});

describe('places of accepted steps', () => {
  const places = (
    accepted: string[],
    moved: string,
    standing = [queue('R1', 'abc'), queue('R2', 'de')],
  ) =>
    newPlaces(
      { cellIds, lanes: accepted.map((lane) => [...lane]), moved: [...moved] },
      standing,
    ).map(({ id, cellId, beforeStepId }) => [id, cellId, beforeStepId]);

  it('are named by the step behind, or by the end', () => {
    expect(places(['cab', 'de'], 'c')).toEqual([['c', 'R1', 'a']]);
    expect(places(['bca', 'de'], 'a')).toEqual([['a', 'R1', null]]);
    expect(places(['ac', 'dbe'], 'b')).toEqual([['b', 'R2', 'e']]);
  });

  it('build on each other', () => {
    // d goes behind a, then c behind d; b is left at the end.
    expect(places(['adcb', 'e'], 'dc')).toEqual([
      ['d', 'R1', 'b'],
      ['c', 'R1', 'b'],
    ]);
  });

  it('leave alone what is not in the plan', () => {
    const standing = [queue('R1', 'axbc'), queue('R2', 'de')];
    expect(places(['acb', 'de'], 'c', standing)).toEqual([['c', 'R1', 'x']]);
  });
});
