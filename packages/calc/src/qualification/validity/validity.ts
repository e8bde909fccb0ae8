import type { SourceId } from '../../sources/index.js';
import { codeIdOf, type CodeId } from '../codes/code-names.js';
import { addDays, addMonths, isDay, type DayText } from './dates.js';

/** How a certificate is renewed; it is to stand on the certificate. */
export type RenewalRoute = 'retest' | 'revalidation' | 'openEnded' | 'continuity';

interface RouteRule {
  /** Months from its start to the day the certificate has to be renewed; null runs on without one. */
  months: number | null;
  from: 'test' | 'extension';
  clause: string;
}

interface ValidityRule {
  routes: Partial<Record<RenewalRoute, RouteRule>>;
  /** Six months after a confirmation or a use: is that day itself still a good one? */
  confirmation: { months: number; lastDayCounts: boolean; clause: string };
  source: SourceId;
}

/**
 * Renewal and confirmation by code. ISO 9606-1 clause 9.3: a) retest, b) revalidation, c) open-ended. The day before
 * the anniversary is the last one: a careful reading, some bodies print the anniversary itself.
 */
const rules: Partial<Record<CodeId, ValidityRule>> = {
  'ISO 9606-1': {
    routes: {
      retest: { months: 36, from: 'test', clause: '9.3 a)' },
      revalidation: { months: 24, from: 'extension', clause: '9.3 b)' },
      openEnded: { months: null, from: 'test', clause: '9.3 c)' },
    },
    confirmation: { months: 6, lastDayCounts: true, clause: '9.2' },
    source: 'iso9606Validity',
  },
  'ISO 9606-2': {
    routes: { revalidation: { months: 24, from: 'extension', clause: '9' } },
    confirmation: { months: 6, lastDayCounts: true, clause: '9' },
    source: 'iso9606Validity',
  },
  'ISO 14732': {
    routes: {
      retest: { months: 72, from: 'test', clause: '5' },
      revalidation: { months: 36, from: 'extension', clause: '5' },
    },
    confirmation: { months: 6, lastDayCounts: true, clause: '5' },
    source: 'iso14732Page',
  },
  // Lapsed when a process was not used for six months or more: the sixth month's day itself is lapsed.
  'ASME IX': {
    routes: { continuity: { months: null, from: 'test', clause: 'QW-322.1' } },
    confirmation: { months: 6, lastDayCounts: false, clause: 'QW-322.1' },
    source: 'asmeContinuity',
  },
  // Lapsed when the time exceeds six months: that day is still good.
  'AWS D1.1': {
    routes: { continuity: { months: null, from: 'test', clause: 'period of effectiveness' } },
    confirmation: { months: 6, lastDayCounts: true, clause: 'period of effectiveness' },
    source: 'awsContinuity',
  },
};

export interface ValidityFacts {
  code: string;
  route: RenewalRoute | null;
  /** The day the test piece was welded. */
  testedOn: DayText;
  /** Last extension under revalidation; null when there was none yet. */
  extendedOn: DayText | null;
  /** Confirmations, or days on which the process was used under ASME IX and AWS D1.1. */
  confirmedOn: readonly DayText[];
}

export interface Validity {
  /** Last day before renewal; null when the certificate runs on without one. */
  validUntil: DayText | null;
  /** Last day on which the latest confirmation or use still holds. */
  confirmedUntil: DayText;
  clauses: { validity: string; confirmation: string };
  source: SourceId;
}

export type ValidityAnswer =
  { ok: true; validity: Validity } | { ok: false; reason: ValidityRefusal; words: string };
export type ValidityRefusal = 'unknownCode' | 'unknownRoute' | 'badDay' | 'confirmedBeforeTest';

function refuse(reason: ValidityRefusal, words: string): ValidityAnswer {
  return { ok: false, reason, words };
}

function badDayIn({ testedOn, extendedOn, confirmedOn }: ValidityFacts): string | null {
  const days = [testedOn, ...(extendedOn === null ? [] : [extendedOn]), ...confirmedOn];
  return days.find((day) => !isDay(day)) ?? null;
}

function lastOf(days: readonly DayText[]): DayText {
  return days.reduce((last, day) => (day > last ? day : last));
}

function lastDay(start: DayText, span: { months: number; dayCounts: boolean }): DayText {
  const end = addMonths(start, span.months) ?? start;
  return span.dayCounts ? end : (addDays(end, -1) ?? end);
}

/**
 * Until when a certificate holds, by code and renewal route, and until when its latest confirmation does. The test
 * itself counts as the first confirmation. Both are to hold on the day of welding.
 */
export function certificateValidity(facts: ValidityFacts): ValidityAnswer {
  const code = codeIdOf(facts.code);
  const rule = code === null ? undefined : rules[code];
  if (code === null || rule === undefined) {
    return refuse('unknownCode', `there are no date rules for ${facts.code}`);
  }
  const route = facts.route === null ? undefined : rule.routes[facts.route];
  if (route === undefined) {
    const allowed = Object.keys(rule.routes).join(', ');
    return refuse(
      'unknownRoute',
      `${code} is renewed by ${allowed}; given is ${facts.route ?? 'nothing'}`,
    );
  }
  const badDay = badDayIn(facts);
  if (badDay !== null) return refuse('badDay', `${badDay} is no calendar day written YYYY-MM-DD`);
  const early = [...facts.confirmedOn, facts.extendedOn ?? facts.testedOn].find(
    (day) => day < facts.testedOn,
  );
  if (early !== undefined) {
    return refuse('confirmedBeforeTest', `${early} is before the test on ${facts.testedOn}`);
  }
  const start = route.from === 'extension' ? (facts.extendedOn ?? facts.testedOn) : facts.testedOn;
  const { months, lastDayCounts, clause } = rule.confirmation;
  return {
    ok: true,
    validity: {
      validUntil:
        route.months === null ? null : lastDay(start, { months: route.months, dayCounts: false }),
      confirmedUntil: lastDay(lastOf([facts.testedOn, ...facts.confirmedOn]), {
        months,
        dayCounts: lastDayCounts,
      }),
      clauses: { validity: route.clause, confirmation: clause },
      source: rule.source,
    },
  };
}
