import type { BodyOf, ContainedWork, JobHold, quality, QueryOf } from '@tackboard/contract';
import { Temporal } from 'temporal-polyfill';
import { actingPerson, type Actor } from '../actor.js';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { finishWhenReady } from '../orders/finish.js';
import { notFound, Refusal, stale } from '../refusal.js';
import {
  containmentReader,
  containmentWriter,
  type HoldRecord,
  type SharedThing,
} from './containment-store.js';
import { namesOf } from './names.js';
import { sharedWork } from './shared-work.js';

type Routes = typeof quality;
type Db = Parameters<typeof containmentReader>[0];
type Query = SharedThing & { readonly from: string; readonly to: string };

const open = new Set<ContainedWork['jobState']>(['waiting', 'running']);

/** Everything that shares a cause, and the quarantine of what is still in the shop. */
export function containmentService(foundation: Foundation) {
  return { ...tracing(foundation), ...holding(foundation) };
}

function tracing({ database, uow, clock, newId, timeZone }: Foundation) {
  return {
    async containment(query: QueryOf<Routes['containment']>) {
      const work = await workOf(database.reader, query, { now: clock.now(), timeZone });
      return { work, openJobs: openJobs(work).length };
    },

    async quarantine(
      actor: Actor,
      { reason, ...query }: BodyOf<Routes['quarantine']>,
    ): Promise<{ holds: JobHold[]; alreadyHeld: number }> {
      return uow.write(actor, async (unit) => {
        const store = containmentWriter(unit.tx);
        const person = actingPerson(actor);
        const work = openJobs(await workOf(unit.tx, query, { now: unit.now, timeZone }));
        if (work.length === 0) {
          throw new Refusal(
            'NOT_NOW',
            'No open job shares this between these days: there is nothing to put into quarantine. Jobs that are finished have to be asked after at their customers.',
          );
        }
        const ids: string[] = [];
        for (const { jobId, jobNumber } of work.filter(({ held }) => !held)) {
          const id = newId();
          await store.place({
            ...{ id, jobId, reason, placedBy: person.id, placedAt: unit.now },
          });
          unit.append({
            type: 'jobHold.placed',
            ...{ subjectType: 'jobHold', subjectId: id, version: 1 },
            after: { jobNumber, ...query },
            ...{ reason, meaning: 'approved' },
          });
          ids.push(id);
        }
        const rows = await Promise.all(ids.map(async (id) => store.hold(id)));
        return {
          holds: await holdViews(
            unit.tx,
            rows.flatMap((row) => row ?? []),
          ),
          alreadyHeld: work.length - ids.length,
        };
      });
    },
  };
}

function holding({ database, uow }: Foundation) {
  return {
    async holds(query: QueryOf<Routes['holds']>): Promise<{ holds: JobHold[] }> {
      const rows = await containmentReader(database.reader).holds(query);
      return { holds: await holdViews(database.reader, rows) };
    },

    async liftHold(
      actor: Actor,
      id: string,
      { reason, expectedVersion }: BodyOf<Routes['liftHold']>,
    ): Promise<JobHold> {
      return uow.write(actor, async (unit) => {
        const store = containmentWriter(unit.tx);
        const person = actingPerson(actor);
        const view = async () => {
          const row = await store.hold(id);
          const [one] = row === null ? [] : await holdViews(unit.tx, [row]);
          if (one === undefined) throw notFound('hold', id, 'params.holdId');
          return one;
        };
        const hold = await view();
        if (hold.version !== expectedVersion) throw stale('hold', hold, expectedVersion);
        if (hold.liftedAt !== null) {
          throw new Refusal('NOT_NOW', `Job ${hold.jobNumber} is out of this quarantine already.`);
        }
        await store.lift(
          { id, version: hold.version },
          { liftedBy: person.id, liftedAt: unit.now, liftReason: reason },
        );
        unit.append({
          type: 'jobHold.lifted',
          ...{ subjectType: 'jobHold', subjectId: id, version: hold.version + 1 },
          before: { reason: hold.reason },
          after: { jobNumber: hold.jobNumber },
          ...{ reason, meaning: 'approved' },
        });
        await finishWhenReady(unit, hold.jobId, unit.now);
        return view();
      });
    },
  };
}

async function workOf(
  db: Db,
  query: Query,
  { now, timeZone }: { now: Date; timeZone: string },
): Promise<ContainedWork[]> {
  const store = containmentReader(db);
  const { from, to, lotId, ...by } = query;
  const span = { from: beginOf(from, timeZone), to: beginOf(dayAfter(to), timeZone) };
  const loads = lotId === undefined ? null : await store.loads(lotId);
  const runs = await store.runs(by, span, loads);
  const counts = await store.counts([...new Set(runs.map(({ jobStepId }) => jobStepId))]);
  const steps = sharedWork({ runs, counts, loads, span, now });
  const described = new Map(
    (await store.described(steps.map(({ jobStepId }) => jobStepId))).map((one) => [
      one.jobStepId,
      one,
    ]),
  );
  const codes = await store.cellCodes(steps.flatMap(({ cellIds }) => cellIds));
  return steps
    .flatMap(({ jobStepId, cellIds, first, last, ...rest }): ContainedWork[] => {
      const found = described.get(jobStepId);
      if (found === undefined) return [];
      return [
        {
          ...found,
          ...{ ...rest, personCodes: [...rest.personCodes] },
          cellCode: cellIds.map((id) => codes.get(id) ?? id).join(', '),
          firstDay: shopDay(first, timeZone),
          lastDay: shopDay(last, timeZone),
        },
      ];
    })
    .sort((a, b) => b.jobNumber - a.jobNumber || a.stepNumber - b.stepNumber);
}

/** One line a job, however many of its steps share the cause. */
function openJobs(work: readonly ContainedWork[]): ContainedWork[] {
  const jobs = new Map(work.map((one) => [one.jobId, one]));
  return [...jobs.values()].filter(({ jobState }) => open.has(jobState));
}

async function holdViews(db: Db, rows: readonly HoldRecord[]): Promise<JobHold[]> {
  const nameOf = await namesOf(
    db,
    rows.flatMap(({ placedBy, liftedBy }) => [placedBy, liftedBy]),
  );
  return rows.map((row) => ({
    ...row,
    placedBy: nameOf(row.placedBy),
    placedAt: row.placedAt.toISOString(),
    liftedBy: row.liftedBy && nameOf(row.liftedBy),
    liftedAt: row.liftedAt?.toISOString() ?? null,
  }));
}

function beginOf(day: string, timeZone: string): Date {
  return new Date(
    Temporal.PlainDate.from(day).toZonedDateTime({ timeZone }).toInstant().epochMilliseconds,
  );
}

function dayAfter(day: string): string {
  return Temporal.PlainDate.from(day).add({ days: 1 }).toString();
}
