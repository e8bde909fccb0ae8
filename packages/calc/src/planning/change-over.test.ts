import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  changeKinds,
  changeOver,
  learnChangeOvers,
  type ChangeKind,
  type MeasuredChangeOver,
} from './change-over.js';

const wireAndFixture: readonly ChangeKind[] = ['wire', 'fixture'];
const took = (changed: readonly ChangeKind[], ...minutes: number[]): MeasuredChangeOver[] =>
  minutes.map((each) => ({ changed, minutes: each }));
const learn = (measured: readonly MeasuredChangeOver[]) => {
  const answer = learnChangeOvers({ measured });
  if (!answer.ok) throw new Error(answer.refusal.allowed);
  return answer.learnt;
};

describe('what change-overs take', () => {
  it('independent: 20, 30 and 28 min have 28 in the middle; places 0.2 and 1.8 are 21.6 and 29.6', () => {
    // Sorted 20, 28, 30: 20 + 0.2 x 8 = 21.6; 28 + 0.8 x 2 = 29.6.
    const [learnt] = learn(took(wireAndFixture, 20, 30, 28));
    expect(learnt).toMatchObject({ changed: ['wire', 'fixture'], minutes: 28, runs: 3 });
    expect(learnt?.lowMin).toBeCloseTo(21.6, 10);
    expect(learnt?.highMin).toBeCloseTo(29.6, 10);
    const used = changeOver({ changed: ['fixture', 'wire'], setUpMin: 60, learnt: [learnt!] });
    expect(used).toMatchObject({ minutes: 28, basis: 'measured', learnt: { runs: 3 } });
  });

  it('independent: two say nothing, and the table gives 15 + 10 = 25', () => {
    const learnt = learn(took(wireAndFixture, 5, 6));
    expect(learnt).toEqual([]);
    expect(changeOver({ changed: wireAndFixture, setUpMin: 60, learnt })).toEqual({
      ...{ minutes: 25, basis: 'table', learnt: null },
    });
  });

  it('are not the sum of their kinds: what is changed together is measured together', () => {
    const learnt = learn([...took(['wire'], 9, 9, 9), ...took(['fixture'], 4, 4, 4)]);
    const both = changeOver({ changed: wireAndFixture, setUpMin: 60, learnt });
    expect(both).toMatchObject({ minutes: 25, basis: 'table' });
    expect(changeOver({ changed: ['wire'], setUpMin: 60, learnt }).minutes).toBe(9);
    expect(changeOver({ changed: ['gas'], setUpMin: 60, learnt }).minutes).toBe(5);
  });

  it('by the table are never more than the whole setting up; measured ones are as measured', () => {
    const asked = { changed: changeKinds, setUpMin: 20 };
    // 15 + 5 + 10 + 10 + 5 = 45.
    expect(changeOver({ ...asked, setUpMin: 45, learnt: [] })).toMatchObject({
      ...{ minutes: 45, basis: 'table' },
    });
    expect(changeOver({ ...asked, learnt: [] })).toMatchObject({
      ...{ minutes: 20, basis: 'wholeSetUp' },
    });
    const learnt = learn(took(changeKinds, 40, 41, 42));
    expect(changeOver({ ...asked, learnt })).toMatchObject({ minutes: 41, basis: 'measured' });
  });

  it('are nothing where nothing differs, whatever was measured', () => {
    const learnt = learn(took([], 7, 7, 7));
    expect(changeOver({ changed: [], setUpMin: 30, learnt })).toMatchObject({ minutes: 0 });
  });

  it('refuse minutes that were not measured, by their place', () => {
    for (const given of [0, -1, NaN, Infinity]) {
      expect(
        learnChangeOvers({ measured: [...took(['gas'], 5), ...took(['gas'], given)] }),
      ).toEqual({
        ok: false,
        refusal: {
          argument: 'measured[1].minutes',
          ...{ given, allowed: 'more than 0 min, as measured' },
        },
      });
    }
  });

  it('lie within what was measured, in whatever order it came', () => {
    const minutes = fc.array(fc.double({ min: 0.5, max: 300, noNaN: true }), {
      ...{ minLength: 3, maxLength: 12 },
    });
    fc.assert(
      fc.property(minutes, fc.shuffledSubarray([...changeKinds]), (each, changed) => {
        const [learnt] = learn(took(changed, ...each));
        const turned = learn(took(changed.toReversed(), ...each.toReversed()))[0];
        expect(turned).toEqual(learnt);
        expect(learnt!.lowMin).toBeGreaterThanOrEqual(Math.min(...each));
        expect(learnt!.highMin).toBeLessThanOrEqual(Math.max(...each));
        expect(learnt!.minutes).toBeGreaterThanOrEqual(learnt!.lowMin);
        expect(learnt!.highMin).toBeGreaterThanOrEqual(learnt!.minutes);
      }),
    );
  });
});
