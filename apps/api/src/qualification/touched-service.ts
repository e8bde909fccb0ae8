import type { Touched, Weld } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import { notFound } from '../refusal.js';
import type { ProceduresService } from '../procedures/service.js';
import { qualificationReader, type QueuedStep } from './store.js';
import { coversByDrawing } from './touched.js';

/** What a procedure revision touches, each queued job judged against it; past work keeps what it was made under. */
export function touchedService(
  { database }: Foundation,
  { procedures }: { procedures: Pick<ProceduresService, 'byId'> },
) {
  return {
    async touched(wpsId: string): Promise<Touched> {
      const wps = await procedures.byId(wpsId);
      if (wps === null) throw notFound('procedure', wpsId);
      const store = qualificationReader(database.reader);
      const queued = await store.queuedSteps(wps.number);
      const [parts, pastSteps, welds, revisions] = await Promise.all([
        store.stepsNaming(wps.number),
        store.doneSteps(wps.number),
        store.weldsOf(queued.map(({ job }) => job.revisionId)),
        store.revisionsOfWps(queued.flatMap((step) => step.wpsId ?? [])),
      ]);
      return {
        number: wps.number,
        revision: wps.revision,
        state: wps.state,
        parts: parts.map(({ number, name, revision }) => ({
          partId: revision.part.id,
          partNumber: revision.part.number,
          revisionId: revision.id,
          revisionLabel: revision.label,
          stepNumber: number,
          stepName: name,
        })),
        jobs: queued.map((step) => ({
          ...jobOf(step, revisions),
          ...coversByDrawing(weldsOfStep(step, welds), wps.ranges),
        })),
        pastSteps,
      };
    },
  };
}

export function weldsOfStep(
  { job, step }: QueuedStep,
  welds: ReadonlyMap<string, readonly Weld[]>,
): readonly Weld[] {
  const ofRevision = welds.get(job.revisionId) ?? [];
  return ofRevision.filter(({ stepNumber }) => stepNumber === step.number);
}

function jobOf(step: QueuedStep, revisions: ReadonlyMap<string, number>) {
  const { id, state, wpsId, job, cell } = step;
  return {
    jobId: job.id,
    jobStepId: id,
    jobNumber: job.number,
    partNumber: job.revision.part.number,
    cellCode: cell.code,
    state:
      state === 'held'
        ? ('held' as const)
        : state === 'blocked'
          ? ('blocked' as const)
          : ('waiting' as const),
    underRevision: state === 'held' && wpsId !== null ? (revisions.get(wpsId) ?? null) : null,
  };
}
