import { describe, expect, it } from 'vitest';
import { barOf } from './bars.js';

/** Own drawing rules; heights worked by hand. */
describe('barOf', () => {
  it('stands what is due on what is carried', () => {
    const week = { openMin: 400, dueMin: 300, carriedMin: 200, share: 1.25 };
    expect(barOf(week)).toEqual({ carried: 0.5, due: 0.75, cut: false });
  });
  it('cuts a bar at twice the hours, and says so', () => {
    const week = { openMin: 100, dueMin: 900, carriedMin: 50, share: 9.5 };
    expect(barOf(week)).toEqual({ carried: 0.5, due: 1.5, cut: true });
    const all = { openMin: 100, dueMin: 10, carriedMin: 300, share: 3.1 };
    expect(barOf(all)).toEqual({ carried: 2, due: 0, cut: true });
  });
  it('draws no bar without hours', () => {
    expect(barOf({ openMin: 0, dueMin: 60, carriedMin: 0, share: null })).toBeNull();
  });
});
