import { describe, expect, it } from 'vitest';
import { changeOversAt, knownChangeOver, type KeptSetUp, type SetUpNeed } from './change-over.js';

const changeOverMin = changeOversAt([]);

const kept: KeptSetUp = {
  ...{ wireItemId: 'w1', gasItemId: 'g1', torch: 'straight neck' },
  ...{ fixtureId: 'f1', programId: 'p1' },
};
const from: SetUpNeed = { stepId: 'a', setUpMin: 60, kept };
const to = (change: Partial<KeptSetUp>, setUpMin = 60): SetUpNeed => ({
  ...{ stepId: 'b', setUpMin, kept: { ...kept, ...change } },
});

describe('change-over between two steps', () => {
  // Common practice, from memory: the starting values of the shop.
  it.each<[Partial<KeptSetUp>, number]>([
    [{}, 0],
    [{ wireItemId: 'w2' }, 15],
    [{ gasItemId: 'g2' }, 5],
    [{ torch: 'swan neck' }, 10],
    [{ fixtureId: 'f2' }, 10],
    [{ fixtureId: null }, 10],
    [{ programId: 'p2' }, 5],
    [{ fixtureId: 'f2', programId: 'p2' }, 15],
    [{ wireItemId: 'w2', gasItemId: 'g2', torch: '', fixtureId: 'f2', programId: 'p2' }, 45],
  ])('%o takes %i min', (change, minutes) => {
    expect(changeOverMin(from, to(change))).toBe(minutes);
  });

  it('is never more than setting the step up with nothing in place', () => {
    expect(changeOverMin(from, to({ wireItemId: 'w2', fixtureId: 'f2' }, 20))).toBe(20);
  });

  it('is the whole setting up where either side is not known', () => {
    expect(changeOverMin(null, to({}, 25))).toBe(25);
    expect(changeOverMin({ ...from, kept: null }, to({}, 25))).toBe(25);
    expect(changeOverMin(from, { ...to({}, 25), kept: null })).toBe(25);
  });

  it('is nothing between two batches of the same step, also where no set-up is kept', () => {
    const plain = { stepId: 'a', setUpMin: 30, kept: null };
    expect(changeOverMin(plain, { ...plain })).toBe(0);
  });
});

describe('change-over where it was measured', () => {
  const learnt = [
    { changed: ['fixture', 'program'] as const, minutes: 22, lowMin: 18, highMin: 25, runs: 4 },
  ];
  const measured = changeOversAt(learnt);

  it('takes the median of what differed alike, and the table for everything else', () => {
    expect(measured(from, to({ fixtureId: 'f2', programId: 'p2' }))).toBe(22);
    // As measured, not cut to what was planned.
    expect(measured(from, to({ fixtureId: 'f2', programId: 'p2' }, 20))).toBe(22);
    expect(measured(from, to({ fixtureId: 'f2' }))).toBe(10);
    expect(measured(from, to({}))).toBe(0);
  });

  it('says which it was', () => {
    expect(knownChangeOver(from, to({ fixtureId: 'f2', programId: 'p2' }), learnt)).toMatchObject({
      ...{ basis: 'measured', minutes: 22, changed: ['fixture', 'program'], learnt: { runs: 4 } },
    });
    expect(knownChangeOver(from, to({ wireItemId: 'w2' }), learnt)).toMatchObject({
      ...{ basis: 'table', minutes: 15, changed: ['wire'] },
    });
    expect(knownChangeOver(from, to({ wireItemId: 'w2' }, 12), learnt)).toMatchObject({
      ...{ basis: 'wholeSetUp', minutes: 12 },
    });
    expect(knownChangeOver({ ...from, kept: null }, to({}), learnt)).toBeNull();
  });
});
