import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countsAsUse } from './continuity.js';
import { addDays, addMonths, daysBetween, isDay } from './dates.js';
import { testAfterDisuse } from './disuse.js';
import { openEndedAllowed, type OpenEndedFacts } from './open-ended.js';
import { certificateValidity, type ValidityFacts } from './validity.js';

function validity(given: Partial<ValidityFacts>) {
  const answer = certificateValidity({
    code: 'ISO 9606-1',
    route: 'retest',
    testedOn: '2024-03-15',
    extendedOn: null,
    confirmedOn: [],
    ...given,
  });
  if (!answer.ok) throw new Error(answer.words);
  return answer.validity;
}

describe('independent: calendar arithmetic', () => {
  const day = fc.date({
    min: new Date('1900-01-01T00:00:00Z'),
    max: new Date('2399-12-31T00:00:00Z'),
    noInvalidDate: true,
  });
  const textOf = (date: Date) => date.toISOString().slice(0, 10);
  const msPerDay = 86_400_000;

  it('agrees with the calendar of the runtime', () => {
    fc.assert(
      fc.property(day, fc.integer({ min: -40_000, max: 40_000 }), (date, days) => {
        const from = textOf(date);
        const to = textOf(new Date(Date.parse(from) + days * msPerDay));
        expect(addDays(from, days)).toBe(to);
        expect(daysBetween(from, to)).toBe(days);
        expect(isDay(from)).toBe(true);
      }),
    );
  });
  it('adds months to the same day or the end of a short month', () => {
    fc.assert(
      fc.property(day, fc.integer({ min: -60, max: 120 }), (date, months) => {
        const from = textOf(date);
        const to = addMonths(from, months) ?? '';
        const [a, b] = [from, to].map((text) => text.split('-').map(Number));
        expect(isDay(to)).toBe(true);
        expect((b?.[0] ?? 0) * 12 + (b?.[1] ?? 0)).toBe(
          (a?.[0] ?? 0) * 12 + (a?.[1] ?? 0) + months,
        );
        const isLast = addDays(to, 1)?.endsWith('-01');
        expect(to.slice(8) === from.slice(8) || (isLast && to.slice(8) < from.slice(8))).toBe(true);
      }),
    );
  });
  it.each([
    ['2026-08-31', 6, '2027-02-28'],
    ['2027-08-31', 6, '2028-02-29'],
    ['2024-02-29', 36, '2027-02-28'],
    ['2026-03-30', 6, '2026-09-30'],
    ['2026-12-31', -1, '2026-11-30'],
  ])('%s + %s months = %s', (from, months, to) => {
    expect(addMonths(from, months)).toBe(to);
  });
  it('refuses what is no day', () => {
    expect(
      ['2026-02-29', '2026-13-01', '2026-4-1', '', '0000-00-00'].map((text) => isDay(text)),
    ).toEqual(Array(5).fill(false));
    expect(addMonths('2026-02-30', 1)).toBe(null);
    expect(addDays('soon', 1)).toBe(null);
    expect(daysBetween('2026-01-01', 'x')).toBe(null);
    expect(addDays('2026-01-01', 0.5)).toBe(null);
  });
});

describe('dates of certificates', () => {
  it('iso9606-93a (9.3 a three years; the day before is a careful reading, medium)', () => {
    expect(validity({}).validUntil).toBe('2027-03-14');
  });
  it('iso9606-93b (9.3 b two years, medium)', () => {
    const extended = {
      route: 'revalidation',
      testedOn: '2022-03-15',
      extendedOn: '2024-03-15',
    } as const;
    expect(validity(extended).validUntil).toBe('2026-03-14');
  });
  it('printed: iso9606-92 (9.2 six months; DEKRA, necitservices, high): lapsed although the test still runs', () => {
    const found = validity({ confirmedOn: ['2025-01-10', '2024-09-10'] });
    expect(found.confirmedUntil).toBe('2025-07-10');
    expect((found.validUntil ?? '') > '2025-08-10').toBe(true);
  });
  it('printed: iso9606-2-al (metall-zert.de, high): two years, and no three-year way', () => {
    const aluminium = { code: 'EN ISO 9606-2', testedOn: '2024-03-15' };
    expect(validity({ ...aluminium, route: 'revalidation' }).validUntil).toBe('2026-03-14');
    expect(() => validity({ ...aluminium, route: 'retest' })).toThrow(/renewed by revalidation/);
  });
  it('printed: iso14732-years, iso14732-reval, iso14732-months (DEKRA Sweden, high)', () => {
    const operator = { code: 'ISO 14732', testedOn: '2024-08-31' } as const;
    expect(validity({ ...operator, route: 'retest' })).toMatchObject({
      validUntil: '2030-08-30',
      confirmedUntil: '2025-02-28',
    });
    expect(validity({ ...operator, route: 'revalidation' }).validUntil).toBe('2027-08-30');
  });
  it('runs on without an end where the way is open-ended', () => {
    expect(validity({ route: 'openEnded' }).validUntil).toBe(null);
  });
  it('asme-lapse, aws-lapse (forums 3710 and 36192, medium): "6 months or more" and "exceeding"', () => {
    const used = {
      route: 'continuity',
      testedOn: '2024-05-02',
      confirmedOn: ['2025-01-10'],
    } as const;
    expect(validity({ ...used, code: 'ASME IX' }).confirmedUntil).toBe('2025-07-09');
    expect(validity({ ...used, code: 'AWS D1.1' }).confirmedUntil).toBe('2025-07-10');
  });
  it('refuses an unknown code or way, a day that is none, and a confirmation before the test', () => {
    const ask = (given: Partial<ValidityFacts>) =>
      certificateValidity({
        code: 'ISO 9606-1',
        route: 'retest',
        testedOn: '2024-03-15',
        extendedOn: null,
        confirmedOn: [],
        ...given,
      });
    expect(ask({ code: 'EN 287-1' })).toMatchObject({ ok: false, reason: 'unknownCode' });
    expect(ask({ route: null })).toMatchObject({ ok: false, reason: 'unknownRoute' });
    expect(ask({ testedOn: '2024-02-30' })).toMatchObject({ ok: false, reason: 'badDay' });
    expect(ask({ confirmedOn: ['2024-03-14'] })).toMatchObject({
      ok: false,
      reason: 'confirmedBeforeTest',
      words: '2024-03-14 is before the test on 2024-03-15',
    });
    expect(ask({ extendedOn: '2023-03-14' })).toMatchObject({ reason: 'confirmedBeforeTest' });
  });
});

const use = (process: string | null, sameEmployer: boolean | null, code = 'AWS D1.1') =>
  countsAsUse({ code, process: 'GMAW', use: { process, sameEmployer } });

describe('what keeps a qualification alive', () => {
  it('printed: aws-continuity-other-code (AWS interpretation D1.1-06-I08b, high): the process counts', () => {
    expect(use('135', true)).toBe('inside');
    expect(use('136', true)).toBe('outside');
    expect(use('135', false)).toBe('outside');
  });
  it('cannot be told with an input missing or under a code of signed confirmations', () => {
    expect(use(null, true)).toBe('cannotSay');
    expect(use('135', null)).toBe('cannotSay');
    expect(use('135', true, 'ISO 9606-1')).toBe('cannotSay');
  });
});

describe('the open-ended way', () => {
  const shop: OpenEndedFacts = {
    iso3834Part: '2',
    sameManufacturer: true,
    weldsDocumented: true,
    pedCategory: null,
    executionClass: 2,
  };
  it('printed: iso9606-93c-ped (thewdc.co.uk, high), iso9606-exc1 (metallbau-magazin.de, high)', () => {
    expect(openEndedAllowed({ ...shop, pedCategory: 3 })).toBe('outside');
    expect(openEndedAllowed({ ...shop, iso3834Part: '4', executionClass: 1 })).toBe('outside');
  });
  it('is open in a shop to ISO 3834-2, and cannot be told for -3 or with an input missing', () => {
    expect(openEndedAllowed(shop)).toBe('inside');
    expect(openEndedAllowed({ ...shop, iso3834Part: '3' })).toBe('cannotSay');
    const missing = [
      { iso3834Part: null },
      { sameManufacturer: null },
      { weldsDocumented: null },
      { pedCategory: undefined },
      { executionClass: undefined },
    ];
    for (const each of missing) expect(openEndedAllowed({ ...shop, ...each })).toBe('cannotSay');
  });
});

it.each([
  ['en1090-disuse-S355-2', 355, 2, 'noExtraTest'],
  ['en1090-disuse-S420-2', 420, 2, 'productionWeldTest'],
  ['en1090-disuse-S355-4', 355, 4, 'macroFromProductionTest'],
  ['en1090-disuse-S420-4', 420, 4, 'newProcedureTest'],
])('printed: %s (EN 1090-2:2008 7.4.1.4, high)', (_id, yieldMPa, yearsUnused, due) => {
  expect(testAfterDisuse({ yieldMPa, yearsUnused })).toBe(due);
});
it('says nothing about a grade or a time that is none', () => {
  expect(testAfterDisuse({ yieldMPa: NaN, yearsUnused: 2 })).toBe(null);
  expect(testAfterDisuse({ yieldMPa: 355, yearsUnused: -1 })).toBe(null);
});
