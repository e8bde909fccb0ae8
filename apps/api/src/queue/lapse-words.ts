import { Temporal } from 'temporal-polyfill';
import { dayWords } from '../orders/day-words.js';
import { confirmedUntil } from '../people/certificate-standing.js';
import type { CertificateFacts } from './facts.js';

/** Why a certificate does not count on a day, in words; null when it counts. */
export function lapseWords(
  certificate: Pick<CertificateFacts, 'revokedOn' | 'validUntil' | 'confirmedOn'>,
  today: string,
): string | null {
  const { revokedOn, validUntil, confirmedOn } = certificate;
  if (revokedOn !== null && revokedOn <= today) return `withdrawn on ${dayWords(revokedOn)}`;
  if (validUntil !== null && validUntil < today) return `ended ${endWords(validUntil, today)}`;
  if (confirmedOn === null) return 'not confirmed by the coordinator yet';
  const until = confirmedUntil(confirmedOn);
  return until < today ? `confirmation ended ${endWords(until, today)}` : null;
}

function endWords(day: string, today: string): string {
  const { days } = Temporal.PlainDate.from(day).until(today, { largestUnit: 'days' });
  return `${dayWords(day)}, ${days === 1 ? '1 day' : `${days} days`} ago`;
}
