import type {
  BodyOf,
  FirstPiece,
  FirstPieceSize,
  FirstPieceTask,
  quality,
  QueryOf,
} from '@tackboard/contract';
import { actingPerson, type ActingPerson, type Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { FilesService } from '../files/service.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import {
  measured,
  resultOf,
  scopeOf,
  sizesToMeasure,
  strictestLevel,
  unmeasured,
} from './first-piece-rule.js';
import {
  firstPieceReader,
  firstPieceWriter,
  type FirstPieceRecord,
  type RunToCheck,
} from './first-piece-store.js';
import { namesOf } from './names.js';

type Routes = typeof quality;
type CheckInput = BodyOf<Routes['checkFirstPiece']>;
type SignInput = BodyOf<Routes['signFirstPiece']>;
type Store = ReturnType<typeof firstPieceReader>;
type Files = Pick<FilesService, 'useIn'>;

/** The first piece of a step: what to check it for, the check, and the second signature. */
export function firstPieceService(foundation: Foundation, files: Files) {
  return { ...readingPieces(foundation), ...checking(foundation, files) };
}

function readingPieces({ database, clock }: Foundation) {
  const db = database.reader;
  return {
    async firstPieceOfRun(runId: string): Promise<FirstPieceTask> {
      const store = firstPieceReader(db);
      const run = await store.runToCheck(runId);
      if (run === null) throw notFound('run', runId, 'params.runId');
      const { jobStepId } = run;
      const { pieces } = await store.pieces({ jobStepId, limit: 50 });
      return {
        ...(await taskOf(store, run, clock.now())),
        passed: await store.passedLike(runId),
        checks: await viewsOf(db, pieces),
      };
    },

    async firstPieces(query: QueryOf<Routes['firstPieces']>) {
      const { pieces, total } = await firstPieceReader(db).pieces(query);
      return { firstPieces: await viewsOf(db, pieces), total };
    },
  };
}

function checking({ uow, newId }: Foundation, files: Files) {
  return {
    async checkFirstPiece(actor: Actor, runId: string, input: CheckInput): Promise<FirstPiece> {
      return uow.write(actor, async (unit) => {
        const store = firstPieceWriter(unit.tx);
        const person = actingPerson(actor);
        const run = await store.runToCheck(runId);
        if (run === null) throw notFound('run', runId, 'params.runId');
        refuseOthers(run, person);
        const task = await taskOf(store, run, unit.now);
        const sizes = sizesOf(task, input);
        refuseVisual(input);
        const result = resultOf({ sizes, visual: input.visual, twoPersons: run.twoPersons });
        const id = newId();
        const { scope, reasons, qualityLevel } = task;
        await store.add({
          ...{ id, jobStepId: run.jobStepId, runId, scope, reasons, sizes, qualityLevel, result },
          ...{ visual: input.visual, imperfections: input.imperfections, note: input.note },
          ...{ signedBy: person.id, signedAt: unit.now },
        });
        const { photoIds = [] } = input;
        await files.useIn(unit, { type: 'firstPiece', id }, photoIds);
        await store.touchRun(runId);
        appendPiece(unit, run.cellId, {
          ...{ id, version: 1, type: 'firstPiece.checked', meaning: 'checked' },
          after: { scope, reasons, sizes, visual: input.visual, result, photoIds },
          reason: input.note,
        });
        return written(unit, id);
      });
    },

    async signFirstPiece(actor: Actor, id: string, input: SignInput): Promise<FirstPiece> {
      return uow.write(actor, async (unit) => {
        const store = firstPieceWriter(unit.tx);
        const person = actingPerson(actor);
        const piece = await store.piece(id);
        if (piece === null) throw notFound('first piece', id, 'params.firstPieceId');
        if (piece.version !== input.expectedVersion) {
          throw stale('first piece', await written(unit, id), input.expectedVersion);
        }
        refuseSignature(piece, person);
        refuseSilentNo(input);
        const result = input.accepted ? 'passed' : 'failed';
        await store.sign(
          { id, version: piece.version },
          { result, qaSignedBy: person.id, qaSignedAt: unit.now, qaNote: input.note },
        );
        await store.touchRun(piece.runId);
        appendPiece(unit, piece.cellId, {
          ...{ id, version: piece.version + 1, type: 'firstPiece.signed', meaning: 'approved' },
          before: { result: piece.result },
          after: { result },
          reason: input.note,
        });
        return written(unit, id);
      });
    },
  };
}

async function taskOf(store: Store, run: RunToCheck, at: Date) {
  const { scope, reasons } = scopeOf({
    now: { ...run.circumstances, at },
    last: await store.lastGood(run),
    personKnowsPart: await store.knowsPart(run),
    personCode: run.personCode,
  });
  return {
    ...{ scope, reasons, twoPersons: run.twoPersons },
    sizes: sizesToMeasure(run.welds, scope),
    /** Any weld may be measured, also beyond what a short check asks for. */
    allSizes: sizesToMeasure(run.welds, 'full'),
    qualityLevel: strictestLevel(run.welds),
  };
}

async function viewsOf(db: Parameters<typeof namesOf>[0], rows: readonly FirstPieceRecord[]) {
  const nameOf = await namesOf(
    db,
    rows.flatMap(({ signedBy, qaSignedBy }) => [signedBy, qaSignedBy]),
  );
  return rows.map((row): FirstPiece => ({
    ...row,
    signedBy: nameOf(row.signedBy),
    signedAt: row.signedAt.toISOString(),
    qaSignedBy: row.qaSignedBy && nameOf(row.qaSignedBy),
    qaSignedAt: row.qaSignedAt?.toISOString() ?? null,
  }));
}

async function written(unit: Unit, id: string): Promise<FirstPiece> {
  const row = await firstPieceWriter(unit.tx).piece(id);
  const [view] = row === null ? [] : await viewsOf(unit.tx, [row]);
  if (view === undefined) throw new Error(`First piece ${id} was written but is not there.`);
  return view;
}

function appendPiece(
  unit: Unit,
  cellId: string,
  event: {
    id: string;
    version: number;
    type: 'firstPiece.checked' | 'firstPiece.signed';
    meaning: 'checked' | 'approved';
    before?: object;
    after: object;
    reason: string;
  },
): void {
  const { id, reason, ...rest } = event;
  unit.append({
    ...rest,
    ...{ subjectType: 'firstPiece', subjectId: id, cellId },
    reason: reason === '' ? null : reason,
  });
}

function refuseOthers(run: RunToCheck, person: ActingPerson): void {
  if (run.endedAt !== null) {
    throw new Refusal('NOT_NOW', 'This run has ended. Pull the step to check a first piece of it.');
  }
  if (run.personId === person.id || person.coordinator) return;
  throw new Refusal(
    'NOT_NOW',
    `${run.personCode} holds this step and signs its first piece. Let it be handed over, or sign in as ${run.personCode}.`,
  );
}

function sizesOf(task: Awaited<ReturnType<typeof taskOf>>, input: CheckInput): FirstPieceSize[] {
  const lacking = unmeasured(task.sizes, input.sizes);
  if (lacking.length > 0) {
    throw refuseField(
      'DOES_NOT_FIT',
      `The ${task.scope} check asks for the size of weld ${lacking.join(', ')} too. Measure it and send it with the others.`,
      'body.sizes',
      input.sizes.map(({ weldNumber }) => weldNumber).join(', '),
      `a throat or a leg of weld ${task.sizes.map(({ weldNumber }) => weldNumber).join(', ')}`,
    );
  }
  return input.sizes.map((size, at) => {
    const found = measured(task.allSizes, size);
    if (found !== null) return found;
    throw refuseField(
      'DOES_NOT_FIT',
      `Weld ${size.weldNumber} of this step has no ${size.measure} on the drawing.`,
      `body.sizes.${at}.weldNumber`,
      size.weldNumber,
      task.allSizes.map((one) => `${one.measure} of weld ${one.weldNumber}`).join(', ') ||
        'no size: the welds of this step have none',
    );
  });
}

function refuseVisual({ visual, imperfections }: CheckInput): void {
  if ((visual === 'rejected') === imperfections.length > 0) return;
  throw refuseField(
    'NEEDS_REASON',
    visual === 'rejected'
      ? 'The visual test is rejected: name the imperfection that is beyond the quality level.'
      : 'The visual test is accepted, but imperfections beyond the quality level are named. Say which of the two holds.',
    'body.imperfections',
    imperfections.join(', '),
    visual === 'rejected' ? 'one imperfection or more' : 'none',
  );
}

function refuseSignature(piece: FirstPieceRecord, person: ActingPerson): void {
  if (piece.result !== 'waitingQa') {
    const why =
      piece.result === 'failed'
        ? 'did not pass'
        : piece.qaSignedAt === null
          ? 'needs no second signature'
          : 'is signed already';
    throw new Refusal('NOT_NOW', `The first piece of job ${piece.jobNumber} ${why}.`);
  }
  if (piece.signedBy !== person.id) return;
  throw new Refusal(
    'NOT_ALLOWED',
    'You made this check yourself. For this part another person of QA signs it.',
  );
}

function refuseSilentNo({ accepted, note }: SignInput): void {
  if (accepted || note.length >= 3) return;
  throw refuseField(
    'NEEDS_REASON',
    'Say what is wrong with the first piece, so that the welder can put it right.',
    'body.note',
    note,
    'at least 3 characters',
  );
}
