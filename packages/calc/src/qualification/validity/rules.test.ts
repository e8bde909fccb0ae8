import { describe, expect, it } from 'vitest';
import { addDays, addMonths, daysBetween, isDay } from './dates.js';
import { testAfterDisuse } from './disuse.js';
import { lookAhead } from './look-ahead.js';
import { openEndedAllowed, type OpenEndedFacts } from './open-ended.js';
import { certificateValidity, type RenewalRoute, type ValidityFacts } from './validity.js';

const facts: ValidityFacts = {
  ...{ code: 'ISO 9606-1', route: 'retest', testedOn: '2024-03-15' },
  ...{ extendedOn: null, confirmedOn: [] },
};
function said(given: Partial<ValidityFacts>): string {
  const answer = certificateValidity({ ...facts, ...given });
  return answer.ok ? '' : `${answer.reason}: ${answer.words}`;
}

// Months and clauses as the digest of ISO 9606-1, ISO 14732 and ISO 9606-2 gives them; those of AWS and ASME as printed.
describe('printed: what a certificate is renewed and confirmed by (DEKRA, metall-zert.de, eng-tips, high)', () => {
  it.each<[string, RenewalRoute, string | null, string, string, string, string]>([
    ['ISO 9606-1', 'retest', '2027-03-14', '2024-09-15', '9.3 a)', '9.2', 'iso9606Validity'],
    ['ISO 9606-1', 'revalidation', '2026-03-14', '2024-09-15', '9.3 b)', '9.2', 'iso9606Validity'],
    ['ISO 9606-1', 'openEnded', null, '2024-09-15', '9.3 c)', '9.2', 'iso9606Validity'],
    ['ISO 9606-2', 'revalidation', '2026-03-14', '2024-09-15', '9', '9', 'iso9606Validity'],
    ['ISO 14732', 'retest', '2030-03-14', '2024-09-15', '5', '5', 'iso14732Page'],
    ['ISO 14732', 'revalidation', '2027-03-14', '2024-09-15', '5', '5', 'iso14732Page'],
    ['ASME IX', 'continuity', null, '2024-09-14', 'QW-322.1', 'QW-322.1', 'asmeContinuity'],
    [
      ...(['AWS D1.1', 'continuity', null, '2024-09-15'] as const),
      ...(['period of effectiveness', 'period of effectiveness', 'awsContinuity'] as const),
    ],
  ])('%s by %s: %s', (code, route, validUntil, confirmedUntil, validity, confirmation, source) => {
    expect(certificateValidity({ ...facts, code, route })).toEqual({
      ok: true,
      validity: { validUntil, confirmedUntil, clauses: { validity, confirmation }, source },
    });
  });
});

describe('a certificate is refused in words', () => {
  it.each<[Partial<ValidityFacts>, string]>([
    [{ code: 'EN 287-1' }, 'unknownCode: there are no date rules for EN 287-1'],
    [{ code: 'ISO 15614-1' }, 'unknownCode: there are no date rules for ISO 15614-1'],
    [
      { route: 'continuity' },
      'unknownRoute: ISO 9606-1 is renewed by retest, revalidation, openEnded; given is continuity',
    ],
    [
      { route: null },
      'unknownRoute: ISO 9606-1 is renewed by retest, revalidation, openEnded; given is nothing',
    ],
    [{ extendedOn: '2025-02-29' }, 'badDay: 2025-02-29 is no calendar day written YYYY-MM-DD'],
    [{ confirmedOn: ['soon'] }, 'badDay: soon is no calendar day written YYYY-MM-DD'],
    [
      { extendedOn: '2024-03-14' },
      'confirmedBeforeTest: 2024-03-14 is before the test on 2024-03-15',
    ],
    [{ confirmedOn: ['2024-03-15'], extendedOn: '2024-03-15' }, ''],
  ])('%o', (given, words) => {
    expect(said(given)).toBe(words);
  });
});

describe('independent: days of the calendar, by hand', () => {
  it.each([
    ...['2026-02-29', '1900-02-29', '2026-04-31', '2026-13-01', '2026-00-10', '2026-01-00'],
    ...['2026-1-011', '20260101', '2026/01/01', '2026-01/01', '2026-01-0x', '2026-0 -01'],
    ...['2026-01-011', '+026-01-01', '2026-11:01', '2026-01-32', '2026-06-31', '2026-0:-01'],
  ])('%s is none', (text) => {
    expect(isDay(text)).toBe(false);
    expect(addDays(text, 1)).toBe(null);
    expect(addMonths(text, 1)).toBe(null);
    expect(daysBetween(text, '2026-01-01')).toBe(null);
    expect(daysBetween('2026-01-01', text)).toBe(null);
  });
  it.each(['2000-02-29', '2400-02-29', '2024-02-29', '0000-03-01', '2026-12-31', '2026-09-30'])(
    '%s is one',
    (text) => {
      expect(isDay(text)).toBe(true);
      expect(addDays(text, 0)).toBe(text);
      expect(addDays(addDays(text, 400) ?? '', -400)).toBe(text);
    },
  );
  it('counts leap days and the turn of a year', () => {
    expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2);
    expect(daysBetween('1900-02-28', '1900-03-01')).toBe(1);
    expect(daysBetween('2000-02-28', '2000-03-01')).toBe(2);
    expect(daysBetween('2025-12-31', '2026-01-01')).toBe(1);
    expect(addDays('2024-02-28', 1)).toBe('2024-02-29');
    expect(addDays('2024-03-01', -1)).toBe('2024-02-29');
    expect(addDays('2023-12-31', 1)).toBe('2024-01-01');
    expect(addDays('2024-02-29', 366)).toBe('2025-03-01');
    expect(addMonths('2026-01-31', 1)).toBe('2026-02-28');
    expect(addMonths('2026-03-31', -1)).toBe('2026-02-28');
    expect(addMonths('2026-01-15', 0.5)).toBe(null);
    expect(isDay(null)).toBe(false);
  });
});

it('independent: every day of four centuries is the one after the day before', () => {
  // 146 097 days are 400 years of the Gregorian calendar: every leap rule, once round.
  let day = '1999-12-31';
  for (let at = 0; at < 146_097; at += 97) {
    const next = addDays(day, 97) ?? '';
    expect(daysBetween(day, next)).toBe(97);
    expect(new Date(`${day}T00:00:00Z`).getTime() + 97 * 86_400_000).toBe(
      new Date(`${next}T00:00:00Z`).getTime(),
    );
    day = next;
  }
});

describe('limits of the other rules, by hand', () => {
  it('disuse: a year is one, three years are not over three, 355 MPa is not above S355', () => {
    const due = (yieldMPa: number, yearsUnused: number) =>
      testAfterDisuse({ yieldMPa, yearsUnused });
    expect(due(356, 0.9)).toBe('noExtraTest');
    expect(due(356, 1)).toBe('productionWeldTest');
    expect(due(356, 3)).toBe('productionWeldTest');
    expect(due(356, 3.1)).toBe('newProcedureTest');
    expect(due(355, 3)).toBe('noExtraTest');
    expect(due(355, 3.1)).toBe('macroFromProductionTest');
    for (const none of [NaN, Infinity, 0, -355]) expect(due(none, 2)).toBe(null);
    for (const none of [NaN, Infinity, -1]) expect(due(355, none)).toBe(null);
    expect(due(355, 0)).toBe('noExtraTest');
  });
  it('the open-ended way: category II of pressure equipment ends it, I and none do not', () => {
    const shop: Omit<OpenEndedFacts, 'pedCategory'> = {
      ...{ iso3834Part: '2', sameManufacturer: true, weldsDocumented: true },
      executionClass: null,
    };
    const found = [1, 2, 3, 4, null, undefined].map((pedCategory) =>
      openEndedAllowed({ ...shop, pedCategory: pedCategory as 1 | null | undefined }),
    );
    expect(found).toEqual(['inside', 'outside', 'outside', 'outside', 'inside', 'cannotSay']);
    const asked: OpenEndedFacts = { ...shop, pedCategory: null };
    expect(openEndedAllowed({ ...asked, sameManufacturer: false })).toBe('outside');
    expect(openEndedAllowed({ ...asked, weldsDocumented: false })).toBe('outside');
    expect(openEndedAllowed({ ...asked, iso3834Part: '4' })).toBe('outside');
  });
});

describe('independent: looking ahead, counted by hand', () => {
  const day = '2026-01-01';
  const item = (id: string, lastDay: string | null) => ({ id, lastDay });
  const lapsesOf = (...items: { id: string; lastDay: string | null }[]) =>
    lookAhead({ day, items, jobs: [] }).lapses.map(({ id, within }) => `${id} ${within}`);
  it('sorts what lapses into 30, 60 and 90 days, the last day of each included', () => {
    const items = [-1, 0, 30, 31, 60, 61, 90, 91].map((days) =>
      item(String(days), addDays(day, days)),
    );
    expect(lapsesOf(...items)).toEqual([
      ...['-1 lapsed', '0 30', '30 30', '31 60', '60 60', '61 90', '90 90'],
    ]);
    expect(lapsesOf(item('b', day), item('a', day), item('none', null))).toEqual(['a 30', 'b 30']);
  });
  it('names what it cannot read, and does not count on it', () => {
    const jobs = [{ id: 'job', plannedOn: '2026-01-20', needs: [['short', 'odd']] }];
    const { lapses, unreadable } = lookAhead({
      ...{ day, jobs },
      items: [item('short', '2026-01-10'), item('odd', 'soon')],
    });
    expect(unreadable).toEqual(['odd']);
    expect(lapses.map(({ id, stops }) => [id, stops])).toEqual([['short', ['job']]]);
  });
  it('a job stops only where nothing else carries it on its own day', () => {
    const needs = (id: string, plannedOn: string, ...anyOf: string[]) => ({
      ...{ id, plannedOn, needs: [anyOf] },
    });
    const { lapses } = lookAhead({
      day,
      items: [item('short', '2026-01-10'), item('long', '2026-03-01'), item('open', null)],
      jobs: [
        needs('on the last day', '2026-01-10', 'short'),
        needs('after', '2026-01-11', 'short'),
        needs('with another', '2026-01-11', 'short', 'long'),
        needs('with one that runs on', '2027-01-01', 'long', 'open'),
        needs('with an unknown one', '2026-01-11', 'short', 'nobody'),
        needs('after both', '2026-03-02', 'short', 'long'),
      ],
    });
    expect(lapses.map(({ id, stops }) => [id, stops])).toEqual([
      ['short', ['after', 'with an unknown one', 'after both']],
      ['long', ['after both']],
    ]);
  });
});
