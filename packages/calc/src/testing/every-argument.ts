import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Calculation } from '../result.js';
import { sources } from '../sources/index.js';

type Run = (args: Record<string, unknown>) => Calculation<object>;
type Good = Record<string, { run: (args: never) => Calculation<object>; args: object }>;

const impossible = [NaN, Infinity, -Infinity, -1, 1e300, '4', null, {}, true];

/**
 * Tests of calculations whose arguments are all numbers, given with good ones: a finite figure with its sources,
 * a refusal by name of each argument in turn when it is impossible, and never NaN. `maybeNull` names arguments
 * for which null means that nobody knows; `maybeNegative` those that may be below zero.
 */
export function describeEveryArgument(
  good: Good,
  maybeNull: readonly string[] = [],
  maybeNegative: readonly string[] = [],
): void {
  const entries = Object.entries(good).map(
    ([name, { run, args }]) =>
      [name, run as unknown as Run, args as Record<string, number>] as const,
  );
  describe.each(entries)('%s', (_name, run, args) => {
    it('gives a finite figure with its unit, inputs and sources that are on the register', () => {
      const result = run(args);
      if (!result.ok) throw new Error(JSON.stringify(result.refusal));
      expect(Number.isFinite(result.value)).toBe(true);
      expect(result.unit).not.toBe('');
      expect(result.inputs).toMatchObject(args);
      expect(result.sources.length).toBeGreaterThan(0);
      for (const id of result.sources) expect(sources).toHaveProperty(id);
    });

    it('refuses every impossible argument by its name, and says what is allowed', () => {
      for (const argument of Object.keys(args)) {
        for (const given of impossible) {
          if (given === null && maybeNull.includes(argument)) continue;
          if (given === -1 && maybeNegative.includes(argument)) continue;
          const result = run({ ...args, [argument]: given });
          expect(result, `${argument} = ${String(given)}`).toMatchObject({
            ok: false,
            refusal: { argument, given },
          });
          expect(result.ok ? '' : result.refusal.allowed).toMatch(/number|more|less/);
        }
      }
    });

    it('never gives a figure that is not a number, whatever it is given', () => {
      const anyArgs = fc.record(
        Object.fromEntries(
          Object.keys(args).map((name) => [name, fc.oneof(fc.double(), fc.nat())]),
        ),
      );
      fc.assert(
        fc.property(anyArgs, (given) => {
          const result = run(given);
          expect(result.ok ? Number.isFinite(result.value) : true).toBe(true);
        }),
      );
    });
  });
}
