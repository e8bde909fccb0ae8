import type { BodyOf, runs, SetUpCard } from '@tackboard/contract';
import type { ActingPerson } from '../actor.js';
import { obstacleWords, type Assessment } from '../queue/assess.js';
import { stepWords } from '../queue/lane.js';
import type { QueueService } from '../queue/service.js';
import { notFound, Refusal } from '../refusal.js';
import { clockWords } from './moments.js';

type PullInput = BodyOf<typeof runs.pull>;
type Step = Assessment['facts']['record'];
export type PullPlan = Assessment & { readonly card: SetUpCard };

/** So many steps are told in one sentence; the rest stands on the screen. */
const namedObstacles = 3;

/** Decides which step a pull takes, or why it takes none. */
export function createPullPlans(queue: QueueService, timeZone: string) {
  return { planOf, lostTo };

  async function planOf(
    person: ActingPerson,
    cellId: string,
    { jobStepId }: PullInput,
  ): Promise<PullPlan | Refusal> {
    const found =
      jobStepId === null
        ? await firstReady(person, cellId)
        : await named(person, cellId, jobStepId);
    return found instanceof Refusal ? found : { ...found, card: await queue.cardFor(found) };
  }

  async function firstReady(person: ActingPerson, cellId: string): Promise<Assessment | Refusal> {
    const lane = await queue.lane(cellId);
    if (lane === null) return notFound('cell', cellId, 'params.cellId');
    const held = lane.steps.find(({ holder }) => holder !== null);
    if (held) return cellBusy(held, lane.cellCode);
    const { next, passedOver } = await queue.firstReady(lane.steps, person);
    if (next !== null) return next;
    const words = passedOver
      .slice(0, namedObstacles)
      .map(({ jobNumber, text }) => `Job ${jobNumber}: ${text}`)
      .join(' ');
    return new Refusal(
      'DOES_NOT_FIT',
      `No step in the run queue of ${lane.cellCode} can start now. ${words || 'The queue is empty.'}`,
      { current: { passedOver } },
    );
  }

  async function named(person: ActingPerson, cellId: string, jobStepId: string) {
    const [found] = await queue.assess([jobStepId], person);
    if (found === undefined) return notFound('queued step', jobStepId, 'body.jobStepId');
    const { record, cell } = found.facts;
    if (record.holder !== null) return taken(person, cell.id, record, record.holder);
    const elsewhere = notHere(found, cellId);
    if (elsewhere !== null) return elsewhere;
    if (found.readiness.ready) return found;
    return new Refusal(
      'DOES_NOT_FIT',
      `${capital(stepWords(record))} cannot start at ${cell.code}: ${obstacleWords(found)}`,
      { current: { fit: found.readiness.fit.answer, ready: found.readiness.lines } },
    );
  }

  /** Who has it, now that it was not free any more; null when it is free again and only changed. */
  async function lostTo(person: ActingPerson, cellId: string, jobStepId: string) {
    const step = await queue.step(jobStepId);
    if (step !== null && step.holder !== null) return taken(person, cellId, step, step.holder);
    const lane = await queue.lane(cellId);
    const held = lane?.steps.find(({ holder }) => holder !== null);
    return lane && held ? cellBusy(held, lane.cellCode) : null;
  }

  async function taken(
    person: ActingPerson,
    cellId: string,
    step: Parameters<typeof stepWords>[0],
    holder: NonNullable<Assessment['facts']['record']['holder']>,
  ): Promise<Refusal> {
    const lane = await queue.lane(cellId);
    const { next } = await queue.firstReady(lane?.steps ?? [], person);
    const since = clockWords(holder.since, timeZone);
    const instead =
      next === null
        ? 'Nothing else is ready here now'
        : `Next here is ${stepWords(next.facts.record)}`;
    return new Refusal(
      'TAKEN',
      `${capital(stepWords(step))} was taken by ${holder.personCode} ${holder.personName} at ${since}. ${instead}.`,
      { current: { holder, next: next === null ? null : await queue.cardFor(next) } },
    );
  }
}

function notHere({ facts: { record, cell } }: Assessment, cellId: string): Refusal | null {
  const words = stepWords(record);
  if (cell.id !== cellId) {
    return new Refusal(
      'NOT_NOW',
      `${capital(words)} stands in the run queue of ${cell.code}, not of this cell. Pull it there, or let the planner move it.`,
    );
  }
  if (record.state !== 'waiting') {
    const why = record.state === 'blocked' ? 'waits for the step before it' : `is ${record.state}`;
    return new Refusal('NOT_NOW', `${capital(words)} ${why}. Pull another step.`);
  }
  return null;
}

function cellBusy(held: Step, cellCode: string): Refusal {
  const { holder } = held;
  const who = holder === null ? '' : ` by ${holder.personCode} ${holder.personName}`;
  return new Refusal(
    'NOT_NOW',
    `${cellCode} already holds ${stepWords(held)}, pulled${who}. Put it down or hand it over first.`,
    { current: held },
  );
}

function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
