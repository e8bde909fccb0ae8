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

/** A batch is not closed at a robot before its program was read: what the next return starts from must be true. */
export async function refuseProgramUnread(
  unit: Unit,
  { view }: RunRecord,
  setUp: SetUp | null,
): Promise<void> {
  if (setUp === null || setUp.programName === null) return;
  if ((await memoryReader(unit.tx).programAtCloseOf(view.id)) !== null) return;
  throw refuseField(
    'NEEDS_REASON',
    `Job ${view.jobNumber} (${view.partNumber}) cannot be put down as complete: read at the robot which revision of program ${setUp.programName} is loaded, and say it before the batch is put down.`,
    'body.batchComplete',
    null,
    'the program revision said at the close first',
  );
}

function noProgram({ view }: RunRecord): Refusal {
  return new Refusal(
    'NOT_NOW',
    `The set-up of job ${view.jobNumber} (${view.partNumber}) at ${view.cellCode} names no program. Let the office name it first.`,
  );
}
