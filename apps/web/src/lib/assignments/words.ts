import { assignments, type Assignment } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';
import { session } from '$lib/session/session.svelte.js';

const endWords = {
  cleared: m.assignment_cleared,
  met: m.assignment_met,
  ended: m.assignment_ended,
} as const satisfies Record<NonNullable<Assignment['closedAs']>, () => string>;

/** Open, overdue or how it ended, as word and shape. */
export function assignmentMark({ closedAs, overdue }: Assignment) {
  if (closedAs !== null) {
    const tone = closedAs === 'ended' ? ('plain' as const) : ('good' as const);
    return { tone, word: endWords[closedAs]() };
  }
  return overdue
    ? { tone: 'stop' as const, word: m.assignment_overdue() }
    : { tone: 'tell' as const, word: m.assignment_open() };
}

/** Whether the one here may say that it is done: their own, or anybody's in the office. */
export function mayClear(given: Assignment): boolean {
  const { person } = session;
  if (person === null || given.closedAs !== null || !session.may(assignments.clear)) return false;
  return given.personId === person.id || person.role === 'office' || person.role === 'manager';
}

export function mayChange(given: Assignment): boolean {
  return given.closedAs === null && session.may(assignments.edit);
}

const fieldWords: Readonly<Record<string, () => string>> = {
  personId: m.assignment_person,
  dueOn: m.assignment_due,
  reason: m.assignment_reason,
  note: m.assignment_note,
};

export function fieldLabel(field: string): string {
  const name = field.replace(/^body\./, '');
  return fieldWords[name]?.() ?? name;
}
