import { WpsRanges } from '@tackboard/contract';

/** What an approved procedure says of the cells where it can be used. */
export interface ApprovedWps {
  readonly code: string;
  readonly mechanisations: readonly string[];
}

export const approvedQuery = {
  where: { state: 'approved' },
  select: { number: true, code: true, ranges: true },
} as const;

/** By number; one revision of each can be approved. */
export function approvedByNumber(
  rows: readonly { number: string; code: string; ranges: unknown }[],
): Map<string, ApprovedWps> {
  return new Map(
    rows.map(({ number, code, ranges }) => [
      number,
      { code, mechanisations: WpsRanges.parse(ranges).mechanisations },
    ]),
  );
}
