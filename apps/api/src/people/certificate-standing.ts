import { Temporal } from 'temporal-polyfill';

/** What the look-ahead calls soon. */
const lapsingDays = 30;

export interface CertificateDates {
  readonly revokedOn: string | null;
  readonly validUntil: string | null;
  readonly confirmedUntil: string | null;
}

/** Lapsed means the last day has ended; no confirmation at all has lapsed too. */
export function standingOn(
  day: string,
  dates: CertificateDates,
): 'current' | 'lapsing' | 'lapsed' | 'revoked' {
  if (dates.revokedOn !== null && dates.revokedOn <= day) return 'revoked';
  if (dates.confirmedUntil === null) return 'lapsed';
  const last =
    dates.validUntil !== null && dates.validUntil < dates.confirmedUntil
      ? dates.validUntil
      : dates.confirmedUntil;
  if (last < day) return 'lapsed';
  const soon = Temporal.PlainDate.from(day).add({ days: lapsingDays }).toString();
  return last <= soon ? 'lapsing' : 'current';
}
