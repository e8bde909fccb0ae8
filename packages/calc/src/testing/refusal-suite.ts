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

const impossible = [0, NaN, Infinity, -Infinity, -1, 1e300, '4', null, {}, true];
/** Numbers that may be none are not refused at nought; every other one is. */
const maybeNought =
  /^(gap|bulge|rootFace|bevelAngle|space|preFlow|postFlow|idle|stub|reserve|before)/;

/** Arguments by name that take what others refuse: null for what nobody knows, nought. */
interface Taken {
  null?: readonly string[];
  nought?: readonly string[];
}

/** Tests that a calculation answers with a whole result or with a refusal by name, whatever it is given. */
export function refusesTheImpossible(table: Record<string, Accepted>, taken: Taken = {}) {
  const isTaken = (argument: string, given: unknown) =>
    (given === null && taken.null?.includes(argument)) ||
    (given === 0 && (maybeNought.test(argument) || taken.nought?.includes(argument)));
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
        for (const given of impossible) {
          if (isTaken(argument, given)) continue;
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
