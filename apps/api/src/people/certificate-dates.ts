import { addMonths, certificateValidity, codeIdOf, type RenewalRoute } from '@tackboard/calc';

/** A certificate as far as its last days hang on it. */
export interface DatedCertificate {
  readonly code: string;
  /** The way of renewal as it is printed, in words or by its clause. */
  readonly renewalRoute: string | null;
  readonly testedOn: string;
  /** As printed; the printed day counts before any rule. */
  readonly validUntil: string | null;
  readonly confirmedOn: readonly string[];
}

interface RuledDates {
  readonly validUntil: string | null;
  readonly confirmedUntil: string;
  readonly validityClause: string;
  readonly confirmationClause: string;
}

export interface CertificateDates {
  readonly route: RenewalRoute | null;
  readonly validUntil: string | null;
  /** Null where nobody has confirmed it and the months that the test itself gives are over or unknown. */
  readonly confirmedUntil: string | null;
  /** The days by the rules of the code alone; null where there are none for it. */
  readonly rule: RuledDates | null;
}

const routeWords: readonly (readonly [RegExp, RenewalRoute])[] = [
  [/9\.3\s*\(?a|retest|new test/i, 'retest'],
  [/9\.3\s*\(?b|revalid/i, 'revalidation'],
  [/9\.3\s*\(?c|open/i, 'openEnded'],
  [/continu/i, 'continuity'],
];

/** Under the US codes there is one way only, so that nothing has to be printed. */
export function renewalRouteOf(code: string, printed: string | null): RenewalRoute | null {
  const id = codeIdOf(code);
  if (id === 'ASME IX' || id === 'AWS D1.1') return 'continuity';
  return routeWords.find(([pattern]) => pattern.test(printed ?? ''))?.[1] ?? null;
}

/** The confirmation hangs on the code alone: any way that the code knows tells its last day. */
const anyRoute: readonly RenewalRoute[] = ['retest', 'revalidation', 'continuity'];

function ruled(facts: DatedCertificate, route: RenewalRoute | null): RuledDates | null {
  const { code, testedOn, confirmedOn } = facts;
  const ask = (by: RenewalRoute) =>
    certificateValidity({ code, route: by, testedOn, extendedOn: null, confirmedOn });
  const known = route === null ? null : ask(route);
  const answer = known?.ok === true ? known : anyRoute.map(ask).find(({ ok }) => ok);
  if (answer === undefined || !answer.ok) return null;
  const { validUntil, confirmedUntil, clauses } = answer.validity;
  return {
    validUntil: known?.ok === true ? validUntil : null,
    confirmedUntil,
    validityClause: clauses.validity,
    confirmationClause: clauses.confirmation,
  };
}

/** Six calendar months where the code has no rule of its own: common practice of all codes on file. */
const commonMonths = 6;

/**
 * The last days of a certificate: the printed one first, then the rule of its code. The test counts as the first
 * confirmation. Short months end on their last day.
 */
export function certificateDates(facts: DatedCertificate): CertificateDates {
  const route = renewalRouteOf(facts.code, facts.renewalRoute);
  const rule = ruled(facts, route);
  const latest = [facts.testedOn, ...facts.confirmedOn].toSorted().at(-1) ?? facts.testedOn;
  return {
    route,
    validUntil: facts.validUntil ?? rule?.validUntil ?? null,
    confirmedUntil: rule?.confirmedUntil ?? addMonths(latest, commonMonths),
    rule,
  };
}
