import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseSets } from './choose-sets.js';

const places = 9;
const someSets = fc.array(fc.uniqueArray(fc.nat(places - 1), { maxLength: 5 }), { maxLength: 9 });
const held = (sets: readonly (readonly number[])[], chosen: readonly number[]) =>
  new Set(chosen.flatMap((at) => sets[at] ?? [])).size;

function everyChoice(count: number): number[][] {
  return Array.from({ length: 2 ** count }, (_, mask) =>
    Array.from({ length: count }, (_each, at) => at).filter((at) => (mask >> at) % 2 === 1),
  );
}

describe('independent: the chosen sets against every choice there is', () => {
  it('fewest for all, and most for a budget, both proven', async () => {
    await fc.assert(
      fc.asyncProperty(someSets, fc.integer({ min: 1, max: 4 }), async (sets, budget) => {
        const { fewest, best } = await chooseSets({
          ...{ problem: { places, sets }, budget, limitMs: 5000 },
        });
        const choices = everyChoice(sets.length);
        const all = held(sets, [...sets.keys()]);
        const least = Math.min(
          ...choices.filter((each) => held(sets, each) === all).map(({ length }) => length),
        );
        expect(fewest).toMatchObject({ held: all, proven: true, bound: least });
        expect(fewest.chosen).toHaveLength(least);
        expect(held(sets, fewest.chosen)).toBe(all);
        const most = Math.max(
          ...choices.filter(({ length }) => length <= budget).map((each) => held(sets, each)),
        );
        expect(best).toMatchObject({ held: most, proven: true, bound: most });
        expect(best.chosen.length).toBeLessThanOrEqual(budget);
        expect(held(sets, best.chosen)).toBe(most);
      }),
      { numRuns: 60 },
    );
  });
});

/**
 * Steiner triple system on 27 points as a covering problem: 117 triples, each to be hit; the fewest points that hit
 * all are 18 (Fulkerson, Nemhauser, Trotter 1974). Built by the product of the system on three points.
 */
function steiner27(): number[][] {
  const digits = (at: number) => [at % 3, Math.floor(at / 3) % 3, Math.floor(at / 9)];
  const lines: number[][] = [];
  for (let a = 0; a < 27; a += 1)
    for (let b = a + 1; b < 27; b += 1) {
      const third = digits(a).map((digit, at) => (6 - digit - (digits(b)[at] ?? 0)) % 3);
      const c = third.reduce((sum, digit, at) => sum + digit * 3 ** at, 0);
      if (c > b) lines.push([a, b, c]);
    }
  return lines;
}

describe('printed: a covering problem that was published with its answer', () => {
  it('stein27: 18 of 27', async () => {
    const lines = steiner27();
    expect(lines).toHaveLength(117);
    const sets = Array.from({ length: 27 }, (_, point) =>
      lines.flatMap((line, at) => (line.includes(point) ? [at] : [])),
    );
    const { fewest } = await chooseSets({
      ...{ problem: { places: 117, sets }, budget: 40, limitMs: 60_000 },
    });
    expect(fewest).toMatchObject({ proven: true, bound: 18, held: 117 });
    expect(fewest.chosen).toHaveLength(18);
  });

  it('out of time it says so: a choice that holds all, and a bound that is true', async () => {
    const lines = steiner27();
    const sets = Array.from({ length: 27 }, (_, point) =>
      lines.flatMap((line, at) => (line.includes(point) ? [at] : [])),
    );
    const { fewest, best } = await chooseSets({
      ...{ problem: { places: 117, sets }, budget: 5, limitMs: 1 },
    });
    expect(fewest.held).toBe(117);
    expect(fewest.bound).toBeLessThanOrEqual(18);
    expect(fewest.chosen.length).toBeGreaterThanOrEqual(18);
    expect(best.chosen.length).toBeLessThanOrEqual(5);
    expect(best.bound).toBeGreaterThanOrEqual(best.held);
  });
});
