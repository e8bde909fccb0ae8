import { addDays, addMonths } from '@tackboard/calc';
import type { Certificate } from '@tackboard/contract';
import { Temporal } from 'temporal-polyfill';
import { shopDay } from '../clock.js';
import type { Db } from '../db/client.js';
import { dayWords } from '../orders/day-words.js';
import { Refusal, refuseField } from '../refusal.js';
import { evidenceReader, type WorkedRun } from './evidence-store.js';

export type { WorkedRun };

type Confirmed = Pick<
  Certificate,
  'number' | 'personId' | 'personCode' | 'kind' | 'process' | 'cellId'
>;

/** The months before a confirmation in which the work has to lie: those that the confirmation before it held. */
const evidenceMonths = 6;

/** A run with the process of the certificate; an operator's certificate asks for its own cell as well. */
function provesUse(run: WorkedRun, certificate: Confirmed): boolean {
  const plain = (word: string) => word.trim().toUpperCase();
  const { kind, cellId } = certificate;
  return (
    run.personId === certificate.personId &&
    (kind === 'welder' || run.cellId === cellId) &&
    run.processes.map(plain).includes(plain(certificate.process))
  );
}

/** Whether a run lies where a confirmation may still be dated: not after the last day of the confirmation before it. */
export function isInTime(
  run: Pick<WorkedRun, 'startedAt'>,
  { confirmations, confirmedUntil }: Pick<Certificate, 'confirmations' | 'confirmedUntil'>,
  zone: string,
): boolean {
  if (confirmations.length === 0 || confirmedUntil === null) return true;
  return shopDay(run.startedAt, zone) <= confirmedUntil;
}

/** The runs that a confirmation of a certificate may rest on. */
export function proofAmong(
  worked: readonly WorkedRun[],
  certificate: Certificate,
  zone: string,
): WorkedRun[] {
  return worked.filter((run) => provesUse(run, certificate) && isInTime(run, certificate, zone));
}

/** "9 runs with 135 from 14 May 2026 to 2 Oct 2026: jobs 1041, 1063"; nothing where there is no run. */
export function evidenceWords(runs: readonly WorkedRun[], process: string, zone: string): string {
  const days = runs.map(({ startedAt }) => shopDay(startedAt, zone)).toSorted();
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return '';
  const jobs = [...new Set(runs.map(({ jobNumber }) => jobNumber))];
  const listed = jobs.slice(0, 20).join(', ') + (jobs.length > 20 ? ' and more' : '');
  const count = runs.length === 1 ? '1 run' : `${runs.length} runs`;
  return `${count} with ${process} from ${dayWords(first)} to ${dayWords(last)}: jobs ${listed}`;
}

/** The instants between which runs prove what is confirmed for a day. */
export function evidenceWindow(confirmedOn: string, zone: string): { from: Date; until: Date } {
  const start = (day: string) =>
    new Date(Temporal.PlainDate.from(day).toZonedDateTime(zone).epochMilliseconds);
  return {
    from: start(addMonths(confirmedOn, -evidenceMonths) ?? confirmedOn),
    until: start(addDays(confirmedOn, 1) ?? confirmedOn),
  };
}

/**
 * Looks for the runs that a confirmation rests on, and refuses one without any where the shop's own records cover
 * those months: then only a new test helps. Records that reach back less far leave room for proof on paper.
 */
export async function provenUse(
  db: Db,
  certificate: Confirmed,
  at: { confirmedOn: string; runIds: readonly string[]; timeZone: string },
): Promise<readonly WorkedRun[]> {
  const { confirmedOn, runIds, timeZone } = at;
  const read = evidenceReader(db);
  const window = evidenceWindow(confirmedOn, timeZone);
  const worked = await read.runs([certificate.personId], window.from, window.until);
  const proof = worked.filter((run) => provesUse(run, certificate));
  const stranger = runIds.findIndex((id) => !proof.some((run) => run.id === id));
  if (stranger !== -1) {
    throw refuseField(
      'NOT_NOW',
      `A run that is named proves nothing here: it is not by ${certificate.personCode} with ${certificate.process} in the six months before ${dayWords(confirmedOn)}.`,
      `body.runIds.${stranger}`,
      runIds[stranger],
      'runs of that person with that process in those months',
    );
  }
  if (proof.length > 0) return proof;
  const firstRunAt = await read.firstRunAt();
  if (firstRunAt === null || firstRunAt >= window.from) return [];
  throw new Refusal(
    'NOT_NOW',
    `Certificate ${certificate.number} cannot be confirmed for ${dayWords(confirmedOn)}: no run of ${certificate.personCode} with ${certificate.process} is on file in the six months before. Only a new test helps.`,
  );
}
