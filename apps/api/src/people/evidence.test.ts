import { expect, it } from 'vitest';
import { isInTime } from './evidence.js';

const once = {
  ...{ id: 'k1', confirmedOn: '2026-03-10', enteredAt: '2026-03-10T08:00:00.000Z' },
  ...{ confirmedBy: 'C01', evidence: 'seen' },
};
const startedAt = (iso: string) => ({ startedAt: new Date(iso) });

// ISO 9606-1:2012, 9.2: a certificate that nobody confirmed in time has lapsed.
it('offers as proof no run after the last day of the confirmation before', () => {
  const confirmed = { confirmations: [once], confirmedUntil: '2026-09-10' };
  expect(isInTime(startedAt('2026-09-10T12:00:00Z'), confirmed, 'Europe/Berlin')).toBe(true);
  expect(isInTime(startedAt('2026-09-10T23:30:00Z'), confirmed, 'Europe/Berlin')).toBe(false);
  expect(isInTime(startedAt('2026-09-10T23:30:00Z'), confirmed, 'UTC')).toBe(true);
});

it('takes any run for a certificate that was never confirmed here', () => {
  const fresh = { confirmations: [], confirmedUntil: '2026-09-10' };
  expect(isInTime(startedAt('2026-10-01T12:00:00Z'), fresh, 'UTC')).toBe(true);
});
