import type { Assignment, Clearer, ReadyNote } from '@tackboard/contract';
import type { z } from 'zod';

type Note = z.infer<typeof ReadyNote>;

/** A ready note with the step it speaks of; null where it speaks of the whole job. */
export interface PlacedNote {
  readonly stepNumber: number | null;
  readonly note: Note;
}

/** Something a job lacks that somebody can see to. */
export interface Missing extends Pick<Assignment, 'stepNumber' | 'text'> {
  readonly topic: Note['topic'];
  readonly clearedBy: Clearer;
}

export function keyOf({ stepNumber, topic }: Pick<Assignment, 'stepNumber' | 'topic'>): string {
  return `${stepNumber ?? 'job'}/${topic}`;
}

/**
 * What is to be cleared, once for each step and topic. What cannot be said lacks no thing but knowledge, and a
 * revision that is made for the first time lacks nothing: neither is anybody's to clear.
 */
export function missingOf(notes: readonly PlacedNote[]): Missing[] {
  const found = new Map<string, Missing>();
  for (const { stepNumber, note } of notes) {
    const { topic, state, text, clearedBy } = note;
    if (state === 'ok' || state === 'cannotSay') continue;
    if (topic === 'revision' && state !== 'stop') continue;
    const key = keyOf({ stepNumber, topic });
    const known = found.get(key);
    found.set(key, {
      ...{ stepNumber, topic, clearedBy: known?.clearedBy ?? clearedBy ?? 'office' },
      text: known === undefined ? text : `${known.text}; ${text.replace(/^step \d+: /, '')}`,
    });
  }
  return [...found.values()];
}
