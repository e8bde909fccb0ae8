import type { Clearer, StartDifference, StartPoint } from '@tackboard/contract';
import { openAssignments, openOn } from '../assignments/open.js';
import { personFor } from '../assignments/propose.js';
import { shopDay } from '../clock.js';
import type { Db } from '../db/client.js';
import type { Unit } from '../db/unit-of-work.js';
import type { PeopleService } from '../people/service.js';
import type { RunRecord } from './store.js';

type Office = Pick<Parameters<typeof personFor>[1], 'people' | 'openOf'>;

const pointWords: Record<StartPoint, { readonly words: string; readonly clearedBy: Clearer }> = {
  part: { words: 'part and revision', clearedBy: 'office' },
  consumables: { words: 'wire and gas', clearedBy: 'office' },
  fixture: { words: 'fixture and torch', clearedBy: 'office' },
  settings: { words: 'settings', clearedBy: 'coordinator' },
  safety: { words: 'extraction and guards', clearedBy: 'manager' },
};

export function notesOf(differences: readonly StartDifference[]): string {
  return differences.map(({ point, note }) => `${pointWords[point].words}: ${note}`).join('; ');
}

/** Read before the write begins, and only where there is something to tell. */
export async function whoCanClear(
  db: Db,
  people: Pick<PeopleService, 'list'>,
  differences: readonly StartDifference[],
): Promise<Office> {
  if (differences.length === 0) return { people: [], openOf: new Map() };
  const { people: all } = await people.list();
  return { people: all, openOf: await openOn(db).openByPerson() };
}

/** Gives each difference to whoever sees to such things, due the same day; answers what to say at the cell. */
export async function tellOffice(
  unit: Unit,
  { view, jobId, stepNumber }: RunRecord,
  told: {
    readonly office: Office;
    readonly differences: readonly StartDifference[];
    readonly takerId: string;
    readonly newId: () => string;
    readonly timeZone: string;
  },
): Promise<string[]> {
  const { office, takerId, newId, timeZone } = told;
  const drafts = told.differences.flatMap(({ point, note }) => {
    const { words, clearedBy } = pointWords[point];
    const person = personFor(clearedBy, { ...office, takerId });
    if (person === null) return [];
    const text = `At ${view.cellCode}, ${words} not as shown: ${note}`;
    const dueOn = shopDay(unit.now, timeZone);
    return [{ stepNumber, topic: 'start' as const, text, person, dueOn }];
  });
  await openAssignments(unit, { id: jobId, number: view.jobNumber }, { drafts, newId });
  return drafts.map(({ person, text }) => `${text}. Told to ${person.code} ${person.name}.`);
}
