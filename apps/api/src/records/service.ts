import type { HistoryEntry, SubjectType } from '@tackboard/contract';
import { eventReader } from '../events/store.js';
import type { Foundation } from '../foundation.js';

export type RecordsService = ReturnType<typeof createRecordsService>;

export function createRecordsService({ database }: Pick<Foundation, 'database'>) {
  const read = eventReader(database.reader);
  return {
    async history(
      subjectType: SubjectType,
      subjectId: string,
      limit: number,
      before?: number,
    ): Promise<{ entries: HistoryEntry[]; more: boolean }> {
      const rows = await read.history(subjectType, subjectId, limit + 1, before);
      return { entries: rows.slice(0, limit), more: rows.length > limit };
    },
    /** Throws when the database does not answer. */
    async lastSeq(): Promise<number> {
      return read.lastSeq();
    },
  };
}
