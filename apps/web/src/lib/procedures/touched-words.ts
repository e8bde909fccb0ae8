import type { Touched } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

type Job = Touched['jobs'][number];

export function coverMark(result: Job['result']) {
  const marks = {
    inside: { tone: 'good', word: m.touched_covered() },
    outside: { tone: 'stop', word: m.touched_not_covered() },
    cannotSay: { tone: 'unknown', word: m.touched_cannot_say() },
  } as const satisfies Record<Job['result'], object>;
  return marks[result];
}

export function touchedState({ state, underRevision }: Job): string {
  if (state === 'held') return m.touched_state_held({ revision: underRevision ?? '–' });
  return state === 'waiting' ? m.touched_state_waiting() : m.touched_state_blocked();
}
