import { dayOf, inDays, type ShopBase, type ShopCell } from './base.js';
import type { Dice } from './dice.js';
import type { PlannedJob, PlannedStep } from './plan.js';
import type { Row, WriteRow } from './rows.js';

export interface Making {
  readonly write: WriteRow;
  readonly dice: Dice;
  readonly base: ShopBase;
  readonly opened: Date;
  readonly now: Date;
}

interface Task {
  readonly job: PlannedJob;
  readonly step: PlannedStep;
  /** Which of the step's runs this is. */
  readonly part: number;
}

const dayStartsH = 5;
const dayLengthMin = 15 * 60;
const gapMin = 6;
const causes = ['waitingParts', 'waitingPerson', 'fault', 'waitingInspection', 'break'] as const;

/** When each step was last worked on, by its id. */
export type EndOfStep = ReadonlyMap<string, Date>;

/** Runs one after the other at every cell on working days up to yesterday; answers the events they left. */
export function writeRuns(making: Making, jobs: readonly PlannedJob[]) {
  const ends = new Map<string, Date>();
  const events: Row[] = [];
  const days = workingDays(making.opened, making.now);
  for (const cell of making.base.cells) {
    const tasks = tasksOf(jobs, cell);
    for (const [at, task] of tasks.entries()) {
      const day = Math.floor((at * days.length) / tasks.length);
      const slot = at - Math.ceil((day * tasks.length) / days.length);
      const slotMin = dayLengthMin / Math.ceil(tasks.length / days.length);
      const startMs = (days[day]?.getTime() ?? 0) + (dayStartsH * 60 + slot * slotMin) * 60_000;
      const span = { from: new Date(startMs), to: new Date(startMs + (slotMin - gapMin) * 60_000) };
      writeRun(making, task, span, events);
      ends.set(task.step.id, span.to);
    }
  }
  return { ends: ends as EndOfStep, events };
}

function tasksOf(jobs: readonly PlannedJob[], cell: ShopCell): Task[] {
  return jobs.flatMap((job) =>
    job.steps
      .filter((step) => step.cell.id === cell.id)
      .flatMap((step) => Array.from({ length: step.runCount }, (_, part) => ({ job, step, part }))),
  );
}

function workingDays(from: Date, to: Date): Date[] {
  const days: Date[] = [];
  for (let at = Date.parse(dayOf(from)); at < Date.parse(dayOf(to)); at += 86_400_000) {
    const weekday = new Date(at).getUTCDay();
    if (weekday !== 0 && weekday !== 6) days.push(new Date(at));
  }
  return days;
}

interface Span {
  readonly from: Date;
  readonly to: Date;
}

function writeRun(making: Making, task: Task, { from, to }: Span, events: Row[]): void {
  const { write, dice, base } = making;
  const { job, step, part } = task;
  const person = dice.of(base.welders);
  const id = dice.id(from);
  const cellId = step.cell.id;
  const good = share(job.quantity, step.runCount, part);
  const scrap = dice.chance(0.05) ? 1 : 0;
  const arcSPerPart = 60 + (job.number % 90);
  const tell = (type: string, at: Date, version: number, after: unknown) =>
    events.push({
      ...{ at, type, actorId: person.id, deviceId: step.cell.tabletId, requestId: `req-${id}` },
      ...{ subjectType: 'run', subjectId: id, subjectVersion: version, cellId },
      after: JSON.stringify(after),
    });
  const moment = (portion: number) =>
    new Date(from.getTime() + portion * (to.getTime() - from.getTime()));
  tell('run.pulled', from, 1, { jobStepId: step.id, personId: person.id, wpsId: null });
  let version = 1;
  const pieces = Math.min(good, dice.chance(0.4) ? 3 : 2);
  for (let at = 0; at < pieces; at += 1) {
    const piece = { good: share(good, pieces, at), rework: 0, scrap: at === 0 ? scrap : 0 };
    const happenedAt = moment((at + 1) / (pieces + 1));
    version += 1;
    write('RunCount', {
      ...{ id: dice.id(happenedAt), runId: id, at: happenedAt, happenedAt },
      ...{ ...piece, personId: person.id },
    });
    tell('run.counted', happenedAt, version, piece);
  }
  if (dice.chance(0.5)) {
    const stop = { startedAt: moment(0.3), endedAt: moment(0.36), cause: dice.of(causes) };
    version += 2;
    write('Stop', { id: dice.id(stop.startedAt), runId: id, ...stop });
    tell('run.stopped', stop.startedAt, version - 1, { cause: stop.cause });
    tell('run.resumed', stop.endedAt, version, { cause: stop.cause });
  }
  if (dice.chance(0.5)) {
    const happenedAt = moment(0.2);
    const values = { currentA: dice.whole(245, 265), voltageV: 27, travelMmMin: 480 };
    write('Reading', {
      ...{ id: dice.id(happenedAt), runId: id, at: happenedAt, happenedAt, ...values },
      ...{ wireSpeedMMin: 9, result: 'inside', personId: person.id },
    });
    tell('run.read', happenedAt, version, values);
  }
  version += 1;
  const arcS = arcSPerPart * (good + scrap);
  tell('run.putDown', to, version, { goodCount: good, arcS });
  write('Run', {
    ...{ id, version, jobStepId: step.id, cellId, personId: person.id, startedAt: from },
    ...{ endedAt: to, goodCount: good, scrapCount: scrap, setUpMin: part === 0 ? 12 : 0 },
    ...{ arcSPerPart, arcS },
  });
}

/** The part `at` of `whole` split as evenly as whole numbers allow. */
function share(whole: number, parts: number, at: number): number {
  return Math.floor((whole * (at + 1)) / parts) - Math.floor((whole * at) / parts);
}

/** Orders, jobs and their steps: the made ones as they ended, the open ones as they stand in the queues. */
export function writeJobs(making: Making, jobs: readonly PlannedJob[], ends: EndOfStep): Row[] {
  const { write, dice, base, now } = making;
  const events: Row[] = [];
  const rank = new Map<string, number>();
  for (const job of jobs) {
    const { id, number, part, quantity, createdAt, open } = job;
    const by = base.manager.person.id;
    const orderId = dice.id(createdAt);
    write('Order', {
      ...{ id: orderId, number, customerId: part.customerId, customerNumber: `PO-${number}` },
      ...{ createdAt, createdBy: by },
    });
    const finishedAt = open ? null : (ends.get(job.steps.at(-1)?.id ?? '') ?? createdAt);
    const dueFrom = open ? now : (finishedAt ?? now);
    write('Job', {
      ...{ id, number, orderId, lineNumber: 1, revisionId: part.revisionId, quantity },
      ...{ orderedRevision: part.label, dueOn: dayOf(inDays(dueFrom, dice.whole(-2, 20))) },
      ...{ state: open ? 'waiting' : 'done', released: true, createdAt, finishedAt },
    });
    const tell = (type: string, at: Date, subjectType: string, subjectId: string) =>
      events.push({
        ...{ at, type, actorId: by, deviceId: null, requestId: null, subjectType, subjectId },
        ...{ subjectVersion: 1, cellId: null, after: JSON.stringify({ number, quantity }) },
      });
    tell('order.taken', createdAt, 'order', orderId);
    for (const [at, { id: jobStepId, step, cell }] of job.steps.entries()) {
      const next = (rank.get(cell.id) ?? 0) + 1024;
      rank.set(cell.id, next);
      const doneAt = ends.get(jobStepId) ?? null;
      write('JobStep', {
        ...{ id: jobStepId, jobId: id, stepId: step.id, number: step.number, cellId: cell.id },
        ...{ state: open ? (at === 0 ? 'waiting' : 'blocked') : 'done', rank: next },
        ...{ plannedMin: 30 + quantity * step.unitMin, goodCount: open ? 0 : quantity, doneAt },
      });
      tell('jobStep.queued', createdAt, 'jobStep', jobStepId);
    }
    if (finishedAt !== null) tell('job.done', finishedAt, 'job', id);
  }
  return events;
}

/** The log in the order of its time, filled up with sign-ins to the wanted length. */
export function writeEvents(
  { write, dice, base, opened, now }: Making,
  told: Row[],
  count: number,
) {
  if (told.length > count)
    throw new Error(`The work alone left ${told.length} events, more than the wanted ${count}.`);
  const spanMs = now.getTime() - opened.getTime();
  for (let left = count - told.length; left > 0; left -= 1) {
    const { id, code } = dice.of(base.welders);
    told.push({
      ...{ at: new Date(opened.getTime() + dice.whole(0, spanMs)), type: 'session.started' },
      ...{ actorId: id, deviceId: null, requestId: null, subjectType: 'person', subjectId: id },
      ...{ subjectVersion: null, cellId: null, after: JSON.stringify({ code, tablet: null }) },
    });
  }
  const inOrder = told.toSorted((a, b) => msOf(a) - msOf(b));
  for (const event of inOrder) write('Event', event);
}

function msOf({ at }: Row): number {
  return at instanceof Date ? at.getTime() : Number.NaN;
}
