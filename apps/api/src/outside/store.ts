import type { OutsideTrip } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';

export interface TripRecord extends OutsideTrip {
  readonly jobNumber: number;
}

export interface NewTrip extends Pick<
  OutsideTrip,
  'id' | 'jobId' | 'work' | 'toWhom' | 'sentOn' | 'dueBackOn' | 'sentBy'
> {
  readonly createdAt: Date;
}

export function outsideReader(db: Db) {
  return {
    async trips(where: { jobId: string } | { id: string }): Promise<TripRecord[]> {
      const rows = await db.outsideTrip.findMany({
        where,
        include: { job: { select: { number: true } } },
        orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
      });
      return rows.map(({ job, createdAt: _createdAt, ...row }) => ({
        ...row,
        jobNumber: job.number,
      }));
    },
    /** The job with what it takes to judge whether its batch may leave. */
    async job(id: string) {
      return db.job.findUnique({
        where: { id },
        select: {
          ...{ number: true, state: true },
          steps: { select: { state: true } },
          outsideTrips: { where: { backOn: null }, select: { toWhom: true } },
        },
      });
    },
  };
}

export function outsideWriter(tx: TransactionClient) {
  return {
    ...outsideReader(tx),
    async add(trip: NewTrip): Promise<void> {
      await tx.outsideTrip.create({ data: trip });
    },
    /** The version in the question keeps a row that has moved on from being overwritten. */
    async back(
      at: { id: string; version: number },
      fields: { backOn: string; certificate: string | null; note: string },
    ): Promise<void> {
      await tx.outsideTrip.update({
        where: at,
        data: { ...fields, version: { increment: 1 } },
      });
    },
  };
}
