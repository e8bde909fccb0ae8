import { daysBetween, isDay } from '../validity/dates.js';
import type { PersonCertificate, PersonLine, PersonReason, PersonVariable } from './facts.js';
import type { FitResult } from '../answer.js';

type Verdict = { result: FitResult; reason: PersonReason; margin?: number | null };

/** A line without limits to compare. */
export function plainLine(
  at: { variable: PersonVariable; given: string | null; clause: string | null },
  verdict: Verdict,
): PersonLine {
  const { variable, given, clause } = at;
  const { result, reason, margin = null } = verdict;
  const unit = margin === null ? null : 'days';
  // Written out: lines are made by the thousand, and copies of spread objects take most of the time.
  return {
    variable,
    result,
    given,
    unit,
    min: null,
    max: null,
    allowed: null,
    margin,
    reason,
    clause,
  };
}

function untilLine(
  at: { variable: PersonVariable; day: string; clause: string | null },
  until: string,
): PersonLine {
  const { variable, day, clause } = at;
  const margin = daysBetween(day, until);
  const verdict: Verdict =
    margin === null
      ? { result: 'cannotSay', reason: 'valueMissing' }
      : margin >= 0
        ? { result: 'inside', reason: 'inRange', margin }
        : { result: 'outside', reason: 'lapsed', margin };
  return { ...plainLine({ variable, given: day, clause }, verdict), allowed: [until] };
}

/** Renewal: is the certificate in force on this day? The margin counts days to its last one. */
export function validityLine(
  certificate: PersonCertificate,
  at: { day: string; clause: string | null },
): PersonLine {
  const { testedOn, revokedOn, validUntil, route } = certificate;
  const variable = 'validity';
  const line = (verdict: Verdict) =>
    plainLine({ variable, given: at.day, clause: at.clause }, verdict);
  if (!isDay(at.day) || !isDay(testedOn))
    return line({ result: 'cannotSay', reason: 'valueMissing' });
  if (revokedOn !== null && revokedOn <= at.day)
    return line({ result: 'outside', reason: 'revoked' });
  if (at.day < testedOn) return line({ result: 'outside', reason: 'beforeTest' });
  if (validUntil !== null) return untilLine({ variable, ...at }, validUntil);
  return route === 'openEnded' || route === 'continuity'
    ? line({ result: 'inside', reason: 'openEnded' })
    : line({ result: 'cannotSay', reason: 'rangeMissing' });
}

/** The six-monthly confirmation, or the last use of the process: without it the certificate has lapsed. */
export function confirmationLine(
  certificate: PersonCertificate,
  at: { day: string; clause: string | null },
): PersonLine {
  const variable = 'confirmation';
  const { confirmedUntil } = certificate;
  if (confirmedUntil !== null) return untilLine({ variable, ...at }, confirmedUntil);
  const verdict = { result: 'outside', reason: 'lapsed' } as const;
  return plainLine({ variable, given: at.day, clause: at.clause }, verdict);
}
