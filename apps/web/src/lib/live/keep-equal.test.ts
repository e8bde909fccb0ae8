import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keepEqual } from './keep-equal.js';

describe('an answer that keeps what is as before', () => {
  it('is equal to the newer one, whatever came before', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (former, next) => {
        const before = structuredClone([former, next]);
        expect(keepEqual(former, next)).toStrictEqual(next);
        expect([former, next]).toStrictEqual(before);
      }),
    );
  });

  it('is the former one itself where nothing changed', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        // A clone of -0 in JSON is 0, which an answer of the server cannot tell apart.
        const former: unknown = JSON.parse(JSON.stringify(value));
        expect(keepEqual(former, JSON.parse(JSON.stringify(value)))).toBe(former);
      }),
    );
  });

  it('finds a row by its id where it has moved, and makes anew only what holds a change', () => {
    const row = (id: string, count: number) => ({ id, holder: { code: 'W01' }, count });
    const former = { lanes: [{ cellId: 'R1', steps: [row('a', 1), row('b', 2), row('c', 3)] }] };
    const next = { lanes: [{ cellId: 'R1', steps: [row('b', 2), row('a', 5), row('c', 3)] }] };
    const [before, after] = [former.lanes[0]!.steps, keepEqual(former, next).lanes[0]!.steps];
    expect(after).toEqual(next.lanes[0]!.steps);
    expect(after[0]).toBe(before[1]);
    expect(after[2]).toBe(before[2]);
    expect(after[1]).not.toBe(before[0]);
    expect(after[1]!.holder).toBe(before[0]!.holder);
  });

  it('tells a missing value from one that is null, and a shorter list from a longer one', () => {
    expect(keepEqual({ a: 1, b: null }, { a: 1 })).toStrictEqual({ a: 1 });
    expect(keepEqual({ a: 1 }, { a: 1, b: null })).toStrictEqual({ a: 1, b: null });
    expect(keepEqual([1, 2], [1])).toStrictEqual([1]);
    expect(keepEqual([], [1])).toStrictEqual([1]);
  });
});
