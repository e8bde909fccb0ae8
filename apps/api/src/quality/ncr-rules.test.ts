import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { effectOf, quarantinedOf, stateOf, undecidedOf, type Decided } from './ncr-rules.js';

const decided = (
  disposition: Decided['disposition'],
  quantity: number,
  accepted: number | null = null,
): Decided => ({ disposition, quantity, accepted });

describe('the parts of an NCR', () => {
  it('two porous: one reworked and accepted, one scrapped', () => {
    const of = (...decisions: Decided[]) => {
      const ncr = { quantity: 2, decisions, closedAt: null };
      return [undecidedOf(ncr), quarantinedOf(ncr), stateOf(ncr)];
    };
    expect(of()).toEqual([2, 2, 'open']);
    expect(of(decided('rework', 1))).toEqual([1, 2, 'open']);
    expect(of(decided('rework', 1), decided('scrap', 1))).toEqual([0, 1, 'decided']);
    expect(of(decided('rework', 1, 1), decided('scrap', 1))).toEqual([0, 0, 'decided']);
  });

  it('asks for another decision on rework that is turned down', () => {
    const ncr = { quantity: 3, decisions: [decided('rework', 3, 1)], closedAt: null };
    expect([undecidedOf(ncr), quarantinedOf(ncr), stateOf(ncr)]).toEqual([2, 2, 'open']);
  });

  it('is closed once it is closed', () => {
    expect(stateOf({ quantity: 1, decisions: [], closedAt: new Date(0) })).toBe('closed');
  });

  it('loses and doubles no part: good, scrap and quarantine add up to what was raised', () => {
    const disposition = fc.constantFrom('rework', 'useAsIs', 'scrap', 'concession');
    fc.assert(
      fc.property(fc.array(fc.tuple(disposition, fc.nat(9), fc.nat(9))), (acts) => {
        const quantity = 40;
        const decisions: Decided[] = [];
        let [good, scrap] = [0, 0];
        for (const [what, wanted, goodOnes] of acts) {
          const some = Math.min(wanted, undecidedOf({ quantity, decisions }));
          if (some === 0) continue;
          const accepted = what === 'rework' ? Math.min(goodOnes, some) : null;
          decisions.push(decided(what, some, accepted));
          const effect = effectOf({ disposition: what, quantity: some });
          good += effect.good + (accepted ?? 0);
          scrap += effect.scrap;
        }
        expect(good + scrap + quarantinedOf({ quantity, decisions })).toBe(quantity);
      }),
      { seed: 28 },
    );
  });
});
