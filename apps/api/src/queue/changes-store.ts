import { z } from 'zod';
import type { Db } from '../db/client.js';

const Fields = z.record(z.string(), z.unknown()).catch({});

export interface ChangeEvent {
  readonly seq: number;
  readonly jobId: string;
  readonly jobNumber: number;
  readonly at: Date;
  readonly by: string | null;
  readonly before: Readonly<Record<string, unknown>>;
  readonly after: Readonly<Record<string, unknown>>;
  readonly reason: string | null;
}

const changing = ['job.changed', 'job.released', 'job.split', 'job.merged'];
const acknowledged = 'job.changeAcknowledged';

export function changesReader(db: Db) {
  return {
    /** Changes that came after the last one acknowledged, oldest first. */
    async events(jobIds: readonly string[]): Promise<ChangeEvent[]> {
      const rows = await db.event.findMany({
        where: {
          subjectType: 'job',
          subjectId: { in: [...jobIds] },
          type: { in: [...changing, acknowledged] },
        },
        orderBy: { seq: 'asc' },
      });
      const seen = new Map(
        rows.flatMap(({ type, subjectId, after }) =>
          type === acknowledged ? [[subjectId, Number(Fields.parse(after)['throughSeq'])]] : [],
        ),
      );
      const open = rows.filter(
        ({ type, subjectId, seq }) => type !== acknowledged && seq > (seen.get(subjectId) ?? 0),
      );
      const people = await db.person.findMany({
        where: { id: { in: open.flatMap(({ actorId }) => actorId ?? []) } },
        select: { id: true, name: true },
      });
      const jobs = await db.job.findMany({
        where: { id: { in: open.map(({ subjectId }) => subjectId) } },
        select: { id: true, number: true },
      });
      const names = new Map(people.map(({ id, name }) => [id, name]));
      const numbers = new Map(jobs.map(({ id, number }) => [id, number]));
      return open.map(({ seq, subjectId, at, actorId, before, after, reason }) => ({
        ...{ seq, jobId: subjectId, at, reason },
        jobNumber: numbers.get(subjectId) ?? 0,
        by: names.get(actorId ?? '') ?? null,
        before: Fields.parse(before ?? {}),
        after: Fields.parse(after ?? {}),
      }));
    },
    /** Since when somebody holds a step of a job; a job that nobody holds is not in the answer. */
    async pulledAt(jobIds: readonly string[]): Promise<Map<string, Date>> {
      const rows = await db.holding.findMany({
        where: { jobStep: { jobId: { in: [...jobIds] } } },
        select: { since: true, jobStep: { select: { jobId: true } } },
        orderBy: { since: 'desc' },
      });
      return new Map(rows.map(({ since, jobStep }) => [jobStep.jobId, since]));
    },
  };
}
