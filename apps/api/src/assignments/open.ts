import type { Assignment } from '@tackboard/contract';
import type { Db } from '../db/client.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Missing } from './missing.js';
import { assignmentsReader, assignmentsWriter } from './store.js';

/** What is open, as other areas count it. */
export const openOn = (db: Db) => {
  const { openByJob, openByPerson } = assignmentsReader(db);
  return { openByJob, openByPerson };
};

/** Something missing with the person and the day it goes to. */
export interface Draft extends Missing {
  readonly person: { readonly id: string; readonly code: string; readonly name: string };
  readonly dueOn: string;
}

type Given = Omit<Draft, 'topic' | 'clearedBy'> & Pick<Assignment, 'topic'>;

/** Gives what a job lacks to people, within the commit that takes the job or that finds it out. */
export async function openAssignments(
  unit: Unit,
  job: { readonly id: string; readonly number: number },
  { drafts, newId }: { readonly drafts: readonly Given[]; readonly newId: () => string },
): Promise<void> {
  if (drafts.length === 0) return;
  const rows = drafts.map(({ stepNumber, topic, text, person, dueOn }) => ({
    ...{ id: newId(), jobId: job.id, stepNumber, topic, text, dueOn },
    ...{ personId: person.id, openedAt: unit.now },
  }));
  await assignmentsWriter(unit.tx).add(rows);
  for (const [at, { id, jobId, stepNumber, topic, text, dueOn }] of rows.entries()) {
    unit.append({
      type: 'assignment.opened',
      ...{ subjectType: 'assignment', subjectId: id, version: 1 },
      after: {
        ...{ jobId, jobNumber: job.number, stepNumber, topic, text, dueOn },
        person: drafts[at]?.person.code,
      },
    });
  }
}
