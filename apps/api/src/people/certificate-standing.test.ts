import { describe, expect, it } from 'vitest';
import { standingOn } from './certificate-standing.js';

describe('standingOn', () => {
  const dates = { revokedOn: null, validUntil: null, confirmedUntil: '2026-09-30' };

  it('holds through its last day and lapses the day after', () => {
    expect(standingOn('2026-09-30', dates)).toBe('lapsing');
    expect(standingOn('2026-10-01', dates)).toBe('lapsed');
  });

  it('is current while more than thirty days are left', () => {
    expect(standingOn('2026-08-30', dates)).toBe('current');
    expect(standingOn('2026-08-31', dates)).toBe('lapsing');
  });

  it('lapses without any confirmation, whatever the end date says', () => {
    expect(
      standingOn('2026-08-01', { ...dates, confirmedUntil: null, validUntil: '2029-01-01' }),
    ).toBe('lapsed');
  });

  it('takes the earlier of confirmation and end date', () => {
    expect(standingOn('2026-08-01', { ...dates, validUntil: '2026-07-31' })).toBe('lapsed');
  });

  it('is revoked from the day named', () => {
    expect(standingOn('2026-08-01', { ...dates, revokedOn: '2026-08-01' })).toBe('revoked');
    expect(standingOn('2026-07-31', { ...dates, revokedOn: '2026-08-01' })).toBe('current');
  });
});
