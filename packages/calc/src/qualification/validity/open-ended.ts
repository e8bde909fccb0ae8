import type { FitResult } from '../answer.js';

export interface OpenEndedFacts {
  /** The shop is verified to ISO 3834 part 2, 3 or 4; null when it is not or nobody knows. */
  iso3834Part: '2' | '3' | '4' | null;
  sameManufacturer: boolean | null;
  weldsDocumented: boolean | null;
  /** Category of the pressure equipment the person works on; null when none, undefined when not known. */
  pedCategory: 1 | 2 | 3 | 4 | null | undefined;
  /** Execution class of EN 1090-2; null when none, undefined when not known. */
  executionClass: 1 | 2 | 3 | 4 | null | undefined;
}

/**
 * May a certificate run on without an end (ISO 9606-1, 9.3 c)? Not on pressure equipment of category II to IV, and
 * not for execution class 1 in a shop to ISO 3834-4 (EN 1090-2:2018, 7.4.2). ISO 3834-3 is remembered as enough, but
 * not confirmed.
 */
export function openEndedAllowed(facts: OpenEndedFacts): FitResult {
  const { iso3834Part, sameManufacturer, weldsDocumented, pedCategory, executionClass } = facts;
  if (pedCategory !== undefined && pedCategory !== null && pedCategory >= 2) return 'outside';
  if (iso3834Part === '4' || sameManufacturer === false || weldsDocumented === false)
    return 'outside';
  const known = sameManufacturer && weldsDocumented && pedCategory !== undefined;
  return known && executionClass !== undefined && iso3834Part === '2' ? 'inside' : 'cannotSay';
}
