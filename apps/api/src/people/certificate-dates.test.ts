import { describe, expect, it } from 'vitest';
import { certificateDates, renewalRouteOf } from './certificate-dates.js';

const welder = {
  ...{ code: 'ISO 9606-1', renewalRoute: null, testedOn: '2025-07-10', validUntil: null },
  confirmedOn: [],
};

describe('last days of a certificate', () => {
  // ISO 9606-1:2012, 9.2; short months end on their last day: common practice.
  it.each([
    ['2026-03-30', '2026-09-30'],
    ['2026-08-31', '2027-02-28'],
    ['2027-08-31', '2028-02-29'],
    ['2026-07-02', '2027-01-02'],
  ])('a confirmation on %s holds until %s', (day, until) => {
    expect(certificateDates({ ...welder, confirmedOn: [day] }).confirmedUntil).toBe(until);
  });

  it('counts the latest confirmation, and the test where there is none', () => {
    const both = { ...welder, confirmedOn: ['2026-02-01', '2025-09-01'] };
    expect(certificateDates(both).confirmedUntil).toBe('2026-08-01');
    expect(certificateDates(welder).confirmedUntil).toBe('2026-01-10');
  });

  // ISO 9606-1:2012, 9.3 a): three years; the day before the anniversary is a careful reading.
  it('tells the end by the way of renewal where none is printed', () => {
    const retest = { ...welder, renewalRoute: '9.3 a: new test every three years' };
    expect(certificateDates(retest).validUntil).toBe('2028-07-09');
    expect(certificateDates(welder).validUntil).toBeNull();
  });

  it('lets the printed end count before the rule', () => {
    const printed = { ...welder, renewalRoute: '9.3 a', validUntil: '2028-07-10' };
    expect(certificateDates(printed).validUntil).toBe('2028-07-10');
  });

  // ASME IX, QW-322.1: lapsed at six months, so that the day before is the last one; from memory.
  it('counts the six months as the code does', () => {
    const asme = { ...welder, code: 'ASME IX', confirmedOn: ['2026-01-10'] };
    expect(certificateDates(asme).confirmedUntil).toBe('2026-07-09');
  });

  it('takes six months where the code has no rule, and says that there is none', () => {
    const other = certificateDates({ ...welder, code: 'House rule 7' });
    expect(other).toMatchObject({ confirmedUntil: '2026-01-10', validUntil: null, rule: null });
  });
});

describe('the way of renewal', () => {
  it.each([
    ['ISO 9606-1', '9.3 a', 'retest'],
    ['ISO 9606-1', '9.3 b)', 'revalidation'],
    ['ISO 9606-1', 'open-ended, 9.3 c', 'openEnded'],
    ['ISO 14732', 'Revalidation', 'revalidation'],
    ['AWS D1.1', null, 'continuity'],
    ['ISO 9606-1', null, null],
    ['ISO 9606-1', 'as agreed', null],
  ])('%s, "%s": %s', (code, printed, route) => {
    expect(renewalRouteOf(code, printed)).toBe(route);
  });
});
