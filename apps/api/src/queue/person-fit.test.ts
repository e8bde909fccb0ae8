import { startingPolicy } from '@tackboard/calc';
import { describe, expect, it } from 'vitest';
import type { CertificateFacts } from './facts.js';
import { judgeCertificate, type PersonQuestion, type WeldToMake } from './person-fit.js';

/** Invented. */
const certificate: CertificateFacts = {
  ...{ id: 'c1', personId: 'p1', personCode: 'W07', personName: 'Wyn Alder', kind: 'welder' },
  ...{ number: 'W-1', code: 'ISO 9606-1', process: '135', cellId: null },
  ...{ jointTypes: ['fillet'], positions: ['PA', 'PB'], materialGroups: [], fillerGroups: ['FM1'] },
  ...{ thicknessMinMm: 3, thicknessMaxMm: null, testedOn: '2026-06-02', validUntil: '2029-06-01' },
  ...{ renewalRoute: null, functionTestOn: null, revokedOn: null, confirmedOn: null },
};
const weld: WeldToMake = {
  ...{ number: 1, process: '135', jointType: 'fillet', position: 'PB' },
  ...{ thicknessAMm: 8, thicknessBMm: 8, materialGroupA: '1.2', materialGroupB: '1.2' },
};
const question: PersonQuestion = {
  cell: { id: 'b1', code: 'B1', kind: 'booth' },
  ...{ code: 'EN ISO 15614-1:2017', coded: true, today: '2026-10-05', policy: startingPolicy },
};
const does = (
  variable: string,
  changes: Partial<CertificateFacts> = {},
  asked: Partial<PersonQuestion> = {},
) =>
  judgeCertificate({ ...certificate, ...changes }, weld, { ...question, ...asked }).find(
    ({ line }) => line.variable === variable,
  )?.strength;

describe('what the answers of a certificate do', () => {
  it('pass while it is in force', () => {
    expect(does('validity')).toBe('pass');
    expect(does('code')).toBe('pass');
  });

  it('stop where no end is printed and no way of renewal tells it', () => {
    expect(does('validity', { validUntil: null })).toBe('gate');
    expect(does('validity', { validUntil: null, renewalRoute: '9.3 a' })).toBe('pass');
    expect(does('validity', { validUntil: null, renewalRoute: '9.3 c, open-ended' })).toBe('pass');
  });

  it('stop where the procedure names a code that nobody knows, and not where there is none', () => {
    expect(does('code', {}, { code: 'House rule 7' })).toBe('gate');
    expect(does('code', {}, { code: 'AWS D1.1:2020' })).toBe('refuse');
    expect(does('code', {}, { code: null })).toBe('pass');
  });
});
