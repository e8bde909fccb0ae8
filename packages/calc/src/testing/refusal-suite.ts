import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Calculation } from '../result.js';
import { sources } from '../sources/index.js';

type Run = (args: Record<string, unknown>) => Calculation<object>;

/** A calculation and arguments that it accepts; each numeric one is then replaced by every bad one. */
export interface Accepted {
  run: Run;
  args: Record<string, unknown>;
}

/** Pairs a calculation with arguments that it accepts. */
export function accepted<A extends object>(
  run: (args: A) => Calculation<object>,
  args: A,
): Accepted {
  return { run: run as unknown as Run, args: args as Record<string, unknown> };
}

const impossible = [NaN, Infinity, -Infinity, -1, 1e300, '4', null, {}, true];
/** Numbers that may be none are not refused at nought; every other one is. */
const maybeNought = /^(gap|bulge|rootFace|bevelAngle|space|preFlow|postFlow|idle|stub|reserve)/;

/** Tests that a calculation answers with a whole result or with a refusal by name, whatever it is given. */
export function refusesTheImpossible(table: Record<string, Accepted>) {
  describe.each(Object.entries(table))('%s', (_name, { run, args }) => {
    const numbers = Object.keys(args).filter((name) => typeof args[name] === 'number');

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
      for (const argument of numbers) {
        const bad = maybeNought.test(argument) ? impossible : [0, ...impossible];
        for (const given of bad) {
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
      const any = fc.record(
        Object.fromEntries(numbers.map((name) => [name, fc.oneof(fc.double(), fc.nat())])),
      );
      fc.assert(
        fc.property(any, (given) => {
          const result = run({ ...args, ...given });
          expect(result.ok ? Number.isFinite(result.value) : true).toBe(true);
        }),
      );
    });
  });
}
