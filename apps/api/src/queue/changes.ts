import type { JobChange } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import { dayWords } from '../orders/day-words.js';
import { changesReader, type ChangeEvent } from './changes-store.js';

/** Changes of jobs in flight that nobody at a cell has acknowledged; read from the event log. */
export function createChanges({ database }: Foundation) {
  const read = changesReader(database.reader);
  return {
    async changesOf(jobIds: readonly string[]): Promise<JobChange[]> {
      const events = await read.events(jobIds);
      const pulledAt = await read.pulledAt(jobIds);
      return events.flatMap((event) => toChange(event, pulledAt.get(event.jobId) ?? null));
    },
  };
}

function toChange(event: ChangeEvent, pulledAt: Date | null): JobChange[] {
  const text = changeWords(event);
  if (text === null) return [];
  const { seq, jobId, jobNumber, at, by, reason } = event;
  return [
    {
      ...{ seq, jobId, jobNumber, at: at.toISOString(), by, text, reason },
      sincePull: pulledAt !== null && at > pulledAt,
    },
  ];
}

/** What the people at the cell have to know; null where nothing of it changed. */
function changeWords({ before, after }: Pick<ChangeEvent, 'before' | 'after'>): string | null {
  const differs = (key: string) => before[key] !== undefined && before[key] !== after[key];
  const fromTo = (key: string) => `${key} from ${String(before[key])} to ${String(after[key])}`;
  const words = [
    ...(differs('quantity') ? [fromTo('quantity')] : []),
    ...(differs('dueOn')
      ? [
          `due date from ${dayWords(String(before['dueOn']))} to ${dayWords(String(after['dueOn']))}`,
        ]
      : []),
    ...(differs('revision') ? [fromTo('revision')] : []),
  ];
  return words.length === 0 ? null : words.join(', ');
}
