import type { PromiseAnswer } from '@tackboard/contract';
import { Temporal } from 'temporal-polyfill';
import { shopDay } from '../clock.js';
import { weekdayWords } from './day-words.js';
import { median } from './line-questions.js';
import type { EndedJob } from './promise-store.js';
import { endOfDay, instantOf, minuteOf } from './shop-queues.js';

/** Below three jobs a share or a median says nothing. */
const fewestJobs = 3;
const minPerDay = 1440;
const noon = 12;
const evening = 17;

interface PromiseFacts {
  readonly finishMin: number | null;
  /** What others do after the last step; null where nothing is, or where it is done. */
  readonly outside: { readonly days: number; readonly dueBackOn: string | null } | null;
  readonly dueOn: string;
  readonly timeZone: string;
  readonly ofPart: readonly EndedJob[];
  readonly ofCell: readonly EndedJob[];
}

/** Finish, inspection as it was in past jobs, work that others do, what is spare to the due date, and how often such jobs were in time. */
export function promiseOf(facts: PromiseFacts): PromiseAnswer {
  const { finishMin, dueOn, timeZone } = facts;
  const inspectionMin = inspectionOf(facts.ofPart);
  const chance = chanceOf(facts);
  const readyMin =
    finishMin === null ? null : afterOutside(finishMin + (inspectionMin ?? 0), facts);
  const spareMin = readyMin === null ? null : endOfDay(dueOn, timeZone) - readyMin;
  const answer = {
    finishAt: instantOf(finishMin),
    inspectionMin,
    readyAt: instantOf(readyMin),
    spareMin,
    chance,
  };
  return { ...answer, text: wordsOf(answer, facts) };
}

/** What is out is ready when its day is over; what is still to go takes its days of the calendar. */
function afterOutside(inspectedMin: number, { outside, timeZone }: PromiseFacts): number {
  if (outside === null) return inspectedMin;
  return outside.dueBackOn === null
    ? inspectedMin + outside.days * minPerDay
    : Math.max(inspectedMin, endOfDay(outside.dueBackOn, timeZone));
}

function outsideWords(outside: PromiseFacts['outside']): string {
  if (outside === null) return '';
  if (outside.dueBackOn !== null) return `, back from others by ${weekdayWords(outside.dueBackOn)}`;
  return `, ${outside.days} ${outside.days === 1 ? 'day' : 'days'} with others`;
}

/** From the end of the last run to the end of the job, in which it was inspected; null before three jobs. */
function inspectionOf(jobs: readonly EndedJob[]): number | null {
  const took = jobs.flatMap(({ finishedAt, workedUntil }) =>
    workedUntil === null ? [] : [Math.max(0, minuteOf(finishedAt) - minuteOf(workedUntil))],
  );
  return took.length < fewestJobs ? null : median(took);
}

function chanceOf({ ofPart, ofCell, timeZone }: PromiseFacts): PromiseAnswer['chance'] {
  const count = (of: 'part' | 'cell', jobs: readonly EndedJob[]) => ({
    ...{ of, jobs: jobs.length },
    inTime: jobs.filter((job) => shopDay(job.finishedAt, timeZone) <= job.dueOn).length,
  });
  if (ofPart.length >= fewestJobs) return count('part', ofPart);
  return ofCell.length >= fewestJobs ? count('cell', ofCell) : null;
}

function wordsOf(answer: Omit<PromiseAnswer, 'text'>, { timeZone, outside }: PromiseFacts): string {
  const { readyAt, spareMin, inspectionMin, chance } = answer;
  if (readyAt === null || spareMin === null) {
    return 'No promise can be given: the calendars of the cells have no such hours. Enter shifts first.';
  }
  const spare = `${(Math.abs(spareMin) / minPerDay).toFixed(1)} days`;
  const inspection =
    inspectionMin === null
      ? 'time for inspection cannot be said before three past jobs'
      : `${Math.round(inspectionMin)} min for inspection as in past jobs`;
  const share =
    chance === null
      ? 'How likely that is cannot be said before three past jobs.'
      : `${chance.inTime} of ${chance.jobs} past jobs ${chance.of === 'part' ? 'of this part' : 'at this cell'} were in time (${Math.round((100 * chance.inTime) / chance.jobs)} %).`;
  const due = spareMin >= 0 ? `${spare} spare` : `${spare} past the due date`;
  return `${timeWords(readyAt, timeZone)}, ${due}; ${inspection}${outsideWords(outside)}. ${share}`;
}

/** `Tue 6 Oct 2026, morning` */
function timeWords(instant: string, timeZone: string): string {
  const at = Temporal.Instant.from(instant).toZonedDateTimeISO(timeZone);
  const part = at.hour < noon ? 'morning' : at.hour < evening ? 'afternoon' : 'evening';
  return `${weekdayWords(at.toPlainDate().toString())}, ${part}`;
}
