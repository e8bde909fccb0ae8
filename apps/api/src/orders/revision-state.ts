import type { OrderCheck } from '@tackboard/contract';
import { dayWords } from './day-words.js';

export interface LastMade {
  readonly revision: string;
  readonly on: string;
}

interface RevisionAnswer {
  readonly state: OrderCheck['revisionState'];
  readonly words: string;
  readonly note: 'ok' | 'check' | 'stop';
}

/**
 * What the ordered revision means: the released one made before, the released one not made before, or another one,
 * which waits until both are compared. The same revision drawn in another file is another one: prints change without
 * their letter.
 */
export function revisionAnswer(facts: {
  ordered: string;
  released: string;
  lastMade: LastMade | null;
  /** Fingerprints of the drawing that came with the order and of the released one; null where there is none. */
  prints?: { readonly ordered: string | null; readonly released: string | null };
}): RevisionAnswer {
  const { ordered, released, lastMade, prints } = facts;
  if (!sameRevision(ordered, released)) {
    return { state: 'different', words: holdReason(facts), note: 'stop' };
  }
  if (prints && isAnother(prints)) {
    const words = `same revision ${released}, different file: compare before release`;
    return { state: 'different', words, note: 'stop' };
  }
  if (lastMade === null) {
    return {
      state: 'firstTime',
      words: `revision ${released} is made for the first time`,
      note: 'check',
    };
  }
  if (sameRevision(lastMade.revision, released)) {
    return { state: 'unchanged', words: `unchanged since ${dayWords(lastMade.on)}`, note: 'ok' };
  }
  const before = `revision ${lastMade.revision} was made last, on ${dayWords(lastMade.on)}`;
  return {
    state: 'firstTime',
    words: `revision ${released} is made for the first time; ${before}`,
    note: 'check',
  };
}

/** Why a job is not ready while the ordered revision is not the released one. */
function holdReason(facts: {
  ordered: string;
  released: string;
  lastMade: LastMade | null;
}): string {
  const { lastMade, ordered } = facts;
  const before =
    lastMade === null || sameRevision(lastMade.revision, ordered)
      ? `revision ${facts.released} released`
      : `revision ${lastMade.revision} made last`;
  return `${before}, ${ordered} ordered: compare before release`;
}

/** Only two files that are both there can differ. */
function isAnother({ ordered, released }: { ordered: string | null; released: string | null }) {
  if (ordered === null || released === null) return false;
  return ordered.trim().toLowerCase() !== released.trim().toLowerCase();
}

function sameRevision(one: string, other: string): boolean {
  return one.trim().toUpperCase() === other.trim().toUpperCase();
}
