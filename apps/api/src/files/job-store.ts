import type { Db } from '../db/client.js';
import type { Subject } from './subject.js';

/** A record of a job that can have files, named as people name it. */
export interface RecordOfJob extends Subject {
  readonly name: string;
}

const ofJob = {
  revision: { select: { id: true, label: true } },
  nonconformances: { select: { id: true, number: true }, orderBy: { number: 'asc' } },
  steps: {
    orderBy: { number: 'asc' },
    select: {
      number: true,
      firstPieces: { select: { id: true }, orderBy: { signedAt: 'asc' } },
      runs: {
        select: { setUpId: true, personId: true, cellId: true, startedAt: true, endedAt: true },
      },
    },
  },
} as const;

/** What belongs to a job: its drawing, set-ups, first pieces, NCRs, lots and the people's papers; null: no such job. */
export async function recordsOfJob(db: Db, jobId: string): Promise<RecordOfJob[] | null> {
  const job = await db.job.findUnique({ where: { id: jobId }, select: ofJob });
  if (job === null) return null;
  const { revision, nonconformances, steps } = job;
  const runs = steps.flatMap((step) => step.runs);
  return [
    { type: 'revision', id: revision.id, name: `Drawing, revision ${revision.label}` },
    ...steps.flatMap(({ number, runs: ofStep, firstPieces }): RecordOfJob[] => [
      ...[...new Set(ofStep.flatMap(({ setUpId }) => setUpId ?? []))].map((id) => ({
        ...{ type: 'setUp' as const, id, name: `Set-up, step ${number}` },
      })),
      ...firstPieces.map(({ id }) => ({
        ...{ type: 'firstPiece' as const, id, name: `First piece, step ${number}` },
      })),
    ]),
    ...nonconformances.map(({ id, number }) => ({
      ...{ type: 'nonconformance' as const, id, name: `NCR ${number}` },
    })),
    ...(await lotsOf(db, runs)),
    ...(await certificatesOf(db, runs)),
  ];
}

interface RunOfJob {
  readonly personId: string;
  readonly cellId: string;
  readonly startedAt: Date;
  readonly endedAt: Date | null;
}

/** The lots that hung at a cell while the job was in work there. */
async function lotsOf(db: Db, runs: readonly RunOfJob[]): Promise<RecordOfJob[]> {
  if (runs.length === 0) return [];
  const lots = await db.lot.findMany({
    where: {
      loads: {
        some: {
          OR: runs.map(({ cellId, startedAt, endedAt }) => ({
            cellId,
            ...(endedAt === null ? {} : { loadedAt: { lt: endedAt } }),
            AND: [{ OR: [{ unloadedAt: null }, { unloadedAt: { gt: startedAt } }] }],
          })),
        },
      },
    },
    select: { id: true, number: true },
    orderBy: { number: 'asc' },
  });
  return lots.map(({ id, number }) => ({ type: 'lot', id, name: `Lot ${number}` }));
}

async function certificatesOf(db: Db, runs: readonly RunOfJob[]): Promise<RecordOfJob[]> {
  const certificates = await db.certificate.findMany({
    where: { personId: { in: [...new Set(runs.map(({ personId }) => personId))] } },
    select: { id: true, number: true },
    orderBy: { number: 'asc' },
  });
  return certificates.map(({ id, number }) => ({
    ...{ type: 'certificate', id, name: `Certificate ${number}` },
  }));
}
