import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitted } from './shrink.js';

describe('fitted', () => {
  it.each([
    [
      { width: 8_000, height: 6_000 },
      { width: 2_048, height: 1_536 },
    ],
    [
      { width: 3_000, height: 4_096 },
      { width: 1_500, height: 2_048 },
    ],
    [
      { width: 640, height: 480 },
      { width: 640, height: 480 },
    ],
    [
      { width: 2_048, height: 10 },
      { width: 2_048, height: 10 },
    ],
  ])('%j becomes %j', (given, expected) => {
    expect(fitted(given)).toEqual(expected);
  });

  it('is never longer than asked, never empty, and keeps its shape to a pixel', () => {
    const side = fc.integer({ min: 1, max: 20_000 });
    fc.assert(
      fc.property(side, side, (width, height) => {
        const to = fitted({ width, height });
        expect(Math.max(to.width, to.height)).toBeLessThanOrEqual(2_048);
        expect(Math.min(to.width, to.height)).toBeGreaterThanOrEqual(1);
        const scale = Math.min(1, 2_048 / Math.max(width, height));
        expect(Math.abs(to.width - width * scale)).toBeLessThanOrEqual(1);
        expect(Math.abs(to.height - height * scale)).toBeLessThanOrEqual(1);
      }),
    );
  });
});
