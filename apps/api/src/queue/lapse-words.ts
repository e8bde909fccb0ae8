import { Temporal } from 'temporal-polyfill';
import { dayWords } from '../orders/day-words.js';
import { certificateDates } from '../people/certificate-dates.js';
import type { CertificateFacts } from './facts.js';

type Dated = Pick<
  CertificateFacts,
  'code' | 'renewalRoute' | 'testedOn' | 'revokedOn' | 'validUntil' | 'confirmedOn'
>;

/** Why a certificate does not count on a day, in words; null when it counts. */
export function lapseWords(certificate: Dated, today: string): string | null {
  const { revokedOn, confirmedOn, testedOn } = certificate;
  if (revokedOn !== null && revokedOn <= today) return `withdrawn on ${dayWords(revokedOn)}`;
  if (testedOn > today) return `tested on ${dayWords(testedOn)}, which is still to come`;
  const { validUntil, confirmedUntil } = certificateDates({
    ...certificate,
    confirmedOn: confirmedOn === null ? [] : [confirmedOn],
  });
  if (validUntil !== null && validUntil < today) return `ended ${endWords(validUntil, today)}`;
  if (confirmedUntil !== null && confirmedUntil >= today) return null;
  if (confirmedOn === null || confirmedUntil === null) {
    return 'not confirmed by the coordinator yet';
  }
  return `confirmation ended ${endWords(confirmedUntil, today)}`;
}

function endWords(day: string, today: string): string {
  const { days } = Temporal.PlainDate.from(day).until(today, { largestUnit: 'days' });
  return `${dayWords(day)}, ${days === 1 ? '1 day' : `${days} days`} ago`;
}
