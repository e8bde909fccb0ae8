import { actingPerson, type ActingPerson, type Actor } from '../actor.js';
import { Refusal } from '../refusal.js';
import { clockWords } from './moments.js';
import type { RunRecord } from './store.js';

/** Only the holder works on a run; the coordinator may in their place. */
export function mustHold(actor: Actor, run: RunRecord, timeZone: string): ActingPerson {
  const person = actingPerson(actor);
  const { view, endedAt, holder } = run;
  const job = `job ${view.jobNumber} (${view.partNumber})`;
  if (endedAt !== null || holder === null || holder.runId !== view.id) {
    const since = endedAt === null ? '' : ` at ${clockWords(endedAt, timeZone)}`;
    const now = holder === null ? 'Nobody holds the step now' : `${holder.code} holds the step now`;
    throw new Refusal(
      'NOT_NOW',
      `This run of ${job} has ended${since}. ${now}; pull it to go on.`,
      {
        current: view,
      },
    );
  }
  if (holder.personId === person.id || person.coordinator) return person;
  throw new Refusal(
    'NOT_NOW',
    `${job[0]?.toUpperCase()}${job.slice(1)} is held by ${view.personCode} ${view.personName}. Only ${view.personCode} or the coordinator can do this now: let it be handed over, or sign in as ${view.personCode}.`,
    { current: view },
  );
}
