import { describe, expect, it } from 'vitest';
import { isFarOff, offsetFrom } from './clock.js';

const date = 'Mon, 05 Oct 2026 05:00:10 GMT';
const serverMs = Date.parse('2026-10-05T05:00:10Z');

describe('offsetFrom', () => {
  it('takes the middle of the way there and back, and half the second that the header cuts off', () => {
    // 200 ms under way, the tablet three hours ahead.
    const sentAtMs = serverMs + 3 * 3_600_000;
    const offsetMs = offsetFrom({ date, sentAtMs, receivedAtMs: sentAtMs + 200 });
    expect(offsetMs).toBe(-3 * 3_600_000 + 500 - 100);
  });
  it.each([
    ['no header', { date: null, sentAtMs: 0, receivedAtMs: 10 }],
    ['an unreadable one', { date: 'yesterday', sentAtMs: 0, receivedAtMs: 10 }],
    ['an answer that took long', { date, sentAtMs: 0, receivedAtMs: 5_001 }],
    ['a clock set back meanwhile', { date, sentAtMs: 10, receivedAtMs: 0 }],
  ])('tells nothing from %s', (_words, answered) => {
    expect(offsetFrom(answered)).toBeNull();
  });
});

/** Two minutes are the shop's own limit. */
describe('isFarOff', () => {
  it.each([
    [120_000, false],
    [120_001, true],
    [-120_001, true],
  ])('%i ms: %s', (offsetMs, far) => {
    expect(isFarOff(offsetMs)).toBe(far);
  });
});
