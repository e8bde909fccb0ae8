import type { BodyOf, outside as routes, OutsideTrip } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { finishWhenReady } from '../orders/finish.js';
import { weekdayWords } from '../orders/day-words.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import { outsideReader, outsideWriter } from './store.js';

type Routes = typeof routes;
type Trips = { trips: OutsideTrip[] };

export type OutsideService = ReturnType<typeof createOutsideService>;

/** Batches that are with somebody else, from the day they leave to the day they are back. */
export function createOutsideService({ database, uow, clock, newId, timeZone }: Foundation) {
  const read = outsideReader(database.reader);
  const today = () => shopDay(clock.now(), timeZone);
  const tripsOf = async (store: typeof read, jobId: string): Promise<Trips> => ({
    trips: (await store.trips({ jobId })).map(({ jobNumber: _jobNumber, ...trip }) => trip),
  });

  return {
    async trips(jobId: string): Promise<Trips> {
      if ((await read.job(jobId)) === null) throw notFound('job', jobId, 'params.jobId');
      return tripsOf(read, jobId);
    },

    async send(actor: Actor, jobId: string, input: BodyOf<Routes['send']>): Promise<Trips> {
      refuseLater('sentOn', input.sentOn, today());
      if (input.dueBackOn < input.sentOn) throw backBefore('dueBackOn', input.dueBackOn, input);
      return uow.write(actor, async (unit) => {
        const store = outsideWriter(unit.tx);
        const job = await store.job(jobId);
        if (job === null) throw notFound('job', jobId, 'params.jobId');
        refuseLeaving(job);
        const id = newId();
        const sentBy = actingPerson(actor).name;
        await store.add({ ...input, id, jobId, sentBy, createdAt: unit.now });
        unit.append({
          type: 'job.sentOut',
          ...{ subjectType: 'job', subjectId: jobId },
          after: { ...input, tripId: id },
        });
        return tripsOf(store, jobId);
      });
    },

    async back(actor: Actor, tripId: string, input: BodyOf<Routes['back']>): Promise<Trips> {
      const { expectedVersion, ...fields } = input;
      refuseLater('backOn', fields.backOn, today());
      return uow.write(actor, async (unit) => {
        const store = outsideWriter(unit.tx);
        const [trip] = await store.trips({ id: tripId });
        if (trip === undefined) throw notFound('outside trip', tripId, 'params.tripId');
        if (trip.version !== expectedVersion) throw stale('outside trip', trip, expectedVersion);
        if (trip.backOn !== null) {
          const on = weekdayWords(trip.backOn);
          throw new Refusal(
            'NOT_NOW',
            `Job ${trip.jobNumber} came back from ${trip.toWhom} on ${on}.`,
          );
        }
        if (fields.backOn < trip.sentOn) throw backBefore('backOn', fields.backOn, trip);
        await store.back({ id: tripId, version: trip.version }, fields);
        unit.append({
          type: 'job.backFromOutside',
          ...{ subjectType: 'job', subjectId: trip.jobId },
          before: { tripId, dueBackOn: trip.dueBackOn },
          after: { ...fields, toWhom: trip.toWhom },
          meaning: 'checked',
        });
        await finishWhenReady(unit, trip.jobId, unit.now);
        return tripsOf(store, trip.jobId);
      });
    },
  };
}

type JobToLeave = NonNullable<Awaited<ReturnType<ReturnType<typeof outsideReader>['job']>>>;

/** Nothing is sent out that nobody has worked on, that has ended, or that is out already. */
function refuseLeaving({ number, state, steps, outsideTrips: [out] }: JobToLeave): void {
  if (state === 'cancelled') {
    throw new Refusal('NOT_NOW', `Job ${number} is cancelled: nothing of it is sent out.`);
  }
  if (out !== undefined) {
    const text = `Job ${number} is at ${out.toWhom}. Say that it is back first, then send it on.`;
    throw new Refusal('NOT_NOW', text);
  }
  if (!steps.some((step) => step.state === 'done')) {
    const text = `No step of job ${number} is done yet. Send it out once one is.`;
    throw new Refusal('NOT_NOW', text);
  }
}

function refuseLater(field: 'sentOn' | 'backOn', day: string, today: string): void {
  if (day <= today) return;
  throw refuseField(
    'DOES_NOT_FIT',
    `${weekdayWords(day)} is still to come. Give the day on which it happened, ${weekdayWords(today)} at the latest.`,
    ...([`body.${field}`, day, `${today} or before`] as const),
  );
}

function backBefore(
  field: 'dueBackOn' | 'backOn',
  day: string,
  { sentOn }: Pick<OutsideTrip, 'sentOn'>,
) {
  return refuseField(
    'DOES_NOT_FIT',
    `It left on ${weekdayWords(sentOn)} and cannot be back on ${weekdayWords(day)}. Correct one of the days.`,
    ...([`body.${field}`, day, `${sentOn} or later`] as const),
  );
}
