import { WpsRanges } from '@tackboard/contract';
import type { Db } from '../db/client.js';

/** What an approved procedure says of the cells where it can be used. */
export interface ApprovedWps {
  readonly code: string;
  readonly mechanisations: readonly string[];
}

export function approvedReader(db: Db) {
  return {
    /** By number; one revision of each can be approved. */
    async approved(): Promise<Map<string, ApprovedWps>> {
      const rows = await db.wps.findMany({
        where: { state: 'approved' },
        select: { number: true, code: true, ranges: true },
      });
      return new Map(
        rows.map(({ number, code, ranges }) => [
          number,
          { code, mechanisations: WpsRanges.parse(ranges).mechanisations },
        ]),
      );
    },
  };
}
