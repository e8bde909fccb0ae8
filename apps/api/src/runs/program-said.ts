import type { SetUp } from '@tackboard/contract';
import type { Unit } from '../db/unit-of-work.js';
import { Refusal, refuseField } from '../refusal.js';
import { memoryReader, type NewChange } from './memory-store.js';
import { addChange } from './setting-change.js';
import type { RunRecord } from './store.js';

interface Said {
  readonly revision: string;
  readonly note: string | null;
  /** The field of the note, e.g. `body.note`. */
  readonly noteField: string;
}

/**
 * Compares the program revision that the robot has loaded with the one that is known: at the start with the kept
 * set-up, later with what was said before. A difference needs a note and is kept as a change. Returns what to tell.
 */
export async function programSaid(
  unit: Unit,
  facts: { run: RunRecord; setUp: SetUp | null; personId: string; newId: () => string },
  { revision, note, noteField }: Said,
): Promise<string[]> {
  const { run, setUp, personId, newId } = facts;
  if (setUp === null || setUp.programName === null) throw noProgram(run);
  const store = memoryReader(unit.tx);
  const { programAtStart, programAtClose } = await store.closing(run.view.jobStepId);
  const known = programAtClose ?? programAtStart ?? setUp.programRevision;
  if (revision === known) return [`Program ${setUp.programName} revision ${revision}, as kept.`];
  const difference = `Program ${setUp.programName}: revision ${revision} is loaded, ${known ?? 'none'} was known.`;
  if (note === null) {
    throw refuseField(
      'NEEDS_REASON',
      `${difference} Say what was changed and why, or load revision ${known ?? 'on file'}.`,
      noteField,
      null,
      'a note of at least 3 characters',
    );
  }
  const row: NewChange = {
    ...{ id: newId(), runId: run.view.id, jobStepId: run.view.jobStepId, at: unit.now },
    ...{ variable: 'programRevision', from: known, to: revision, why: note, personId },
    // What a program holds is not in the procedure: its settings are judged as they are dialled.
    ...{ result: 'cannotSay', afterPart: run.view.stepGoodCount },
  };
  await addChange(unit, run, row);
  return [
    `${difference} Noted. Compare its settings with ${run.view.wpsLabel ?? 'the procedure'}.`,
  ];
}

function noProgram({ view }: RunRecord): Refusal {
  return new Refusal(
    'NOT_NOW',
    `The set-up of job ${view.jobNumber} (${view.partNumber}) at ${view.cellCode} names no program. Let the office name it first.`,
  );
}
