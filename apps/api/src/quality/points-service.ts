import type { BodyOf, InspectionPoint, quality, QueryOf } from '@tackboard/contract';
import { actingPerson, systemActor, type Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { finishWhenReady } from '../orders/finish.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import { namesOf } from './names.js';
import { pointsReader, pointsWriter, type PointRecord } from './points-store.js';

type Routes = typeof quality;
type Db = Parameters<typeof pointsReader>[0];

/** Hold and witness points: opened when a step is done, closed by QA or by the clock. */
export function pointsService({ database, uow, clock }: Foundation) {
  return {
    async points(query: QueryOf<Routes['points']>): Promise<{ points: InspectionPoint[] }> {
      const db = database.reader;
      return { points: await viewsOf(db, await pointsReader(db).points(query)) };
    },

    async closePoint(
      actor: Actor,
      id: string,
      input: BodyOf<Routes['closePoint']>,
    ): Promise<InspectionPoint> {
      return uow.write(actor, async (unit) => {
        const person = actingPerson(actor);
        const store = pointsWriter(unit.tx);
        const point = await store.point(id);
        if (point === null) throw notFound('inspection point', id, 'params.pointId');
        if (point.version !== input.expectedVersion) {
          throw stale('inspection point', await written(unit, id), input.expectedVersion);
        }
        refuseClosed(point);
        refuseSilentWaiver(input);
        const { result, note } = input;
        await store.close(
          { id, version: point.version },
          { result, closedBy: person.id, closedAt: unit.now, note },
        );
        const passedAs = point.kind === 'witness' ? ('witnessed' as const) : ('approved' as const);
        append(unit, point, { result, note, meaning: result === 'waived' ? 'waived' : passedAs });
        await finishWhenReady(unit, point.jobId, unit.now);
        return written(unit, id);
      });
    },

    /** Writes down which witness points ended without an inspector; answers how many. */
    async endWitnessPoints(): Promise<number> {
      const overdue = await pointsReader(database.reader).overdue(clock.now());
      if (overdue.length === 0) return 0;
      return uow.write(systemActor, async (unit) => {
        const store = pointsWriter(unit.tx);
        // Read again: somebody may have come in the last moment.
        const points = await store.overdue(unit.now);
        for (const point of points) {
          const closedAt = point.dueAt ?? unit.now;
          const note = 'Nobody came in time.';
          await store.close(
            { id: point.id, version: point.version },
            { result: 'timedOut', closedBy: null, closedAt, note },
          );
          append(unit, point, { result: 'timedOut', note });
        }
        return points.length;
      });
    },
  };
}

function append(
  unit: Unit,
  point: PointRecord,
  {
    result,
    note,
    meaning,
  }: {
    result: NonNullable<InspectionPoint['result']>;
    note: string;
    meaning?: 'waived' | 'witnessed' | 'approved';
  },
): void {
  unit.append({
    type: `inspectionPoint.${result}`,
    ...{ subjectType: 'inspectionPoint', subjectId: point.id, version: point.version + 1 },
    cellId: point.cellId,
    before: { result: null },
    after: { result, jobNumber: point.jobNumber, stepNumber: point.stepNumber },
    reason: note === '' ? null : note,
    ...(meaning === undefined ? {} : { meaning }),
  });
}

function refuseClosed({ result, jobNumber, stepNumber }: PointRecord): void {
  if (result === null) return;
  const words = { passed: 'passed', waived: 'waived', timedOut: 'over' }[result];
  throw new Refusal(
    'NOT_NOW',
    `The point after step ${stepNumber} of job ${jobNumber} is ${words} already.`,
  );
}

function refuseSilentWaiver({ result, note }: BodyOf<Routes['closePoint']>): void {
  if (result === 'passed' || note.length >= 15) return;
  throw refuseField(
    'NEEDS_REASON',
    'A point that is waived leaves its reason on record: say why nobody looks.',
    'body.note',
    note,
    'at least 15 characters',
  );
}

async function written(unit: Unit, id: string): Promise<InspectionPoint> {
  const row = await pointsReader(unit.tx).point(id);
  const [view] = row === null ? [] : await viewsOf(unit.tx, [row]);
  if (view === undefined) throw new Error(`Inspection point ${id} was written but is not there.`);
  return view;
}

async function viewsOf(db: Db, rows: readonly PointRecord[]): Promise<InspectionPoint[]> {
  const nameOf = await namesOf(
    db,
    rows.map(({ closedBy }) => closedBy),
  );
  return rows.map((row) => ({
    ...row,
    openedAt: row.openedAt.toISOString(),
    dueAt: row.dueAt?.toISOString() ?? null,
    closedBy: row.closedBy && nameOf(row.closedBy),
    closedAt: row.closedAt?.toISOString() ?? null,
  }));
}
