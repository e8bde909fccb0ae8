import type {
  FirstPiece,
  HistoryEntry,
  InspectionPoint,
  Job,
  JobHold,
  LotUse,
  Ncr,
  OutsideTrip,
  Override,
  Run,
} from '@tackboard/contract';
import type { Content } from 'pdfmake/interfaces.js';
import { numberWords } from '../queue/fit-words.js';
import { fact, heading, paragraph, table, type Fact } from './blocks.js';
import type { Sheet } from './frame.js';
import { amount, listed } from './words.js';

export interface DossierOnFile {
  readonly job: Job;
  readonly drawingNumber: string;
  readonly runs: readonly Run[];
  readonly lots: readonly LotUse[];
  readonly firstPieces: readonly FirstPiece[];
  readonly ncrs: readonly Ncr[];
  readonly points: readonly InspectionPoint[];
  readonly jobHolds: readonly JobHold[];
  readonly overrides: readonly Override[];
  readonly trips: readonly OutsideTrip[];
  readonly history: readonly HistoryEntry[];
  /** An instant on the clock of the shop, in words. */
  readonly at: (instant: string) => string;
  readonly dueOn: string;
}

/** All records of one job together: who made it, by what, of what, and what was checked, found and signed. */
export function dossierSheet(onFile: DossierOnFile): Sheet {
  const { job } = onFile;
  const open = openPoints(job);
  return {
    title: 'Job dossier',
    subject: `Job ${job.number}, ${job.partNumber}`,
    revision: job.revision,
    mark: open.length > 0 ? 'NOT COMPLETE, see what is open' : null,
    showsWork: false,
    content: [
      ...factsOf(onFile).map(fact),
      heading('What is open'),
      ...(open.length > 0 ? open : ['Nothing on file when this was printed.']).map(paragraph),
      ...part('Work', work(onFile)),
      ...part('Readings', readings(onFile)),
      ...part('Wire and gas', lots(onFile)),
      ...part('First pieces', firstPieces(onFile)),
      ...part('Non-conformities', ncrs(onFile)),
      ...part('Hold and witness points, quarantine', points(onFile)),
      ...part('Done by others', trips(onFile)),
      ...part('Overrides', overrides(onFile)),
      ...part('What happened to the job', happened(onFile)),
    ],
  };
}

function openPoints({ state, openNcrs, openHolds, outside }: Job): string[] {
  const made = state === 'done' || state === 'closedShort' || state === 'cancelled';
  return [
    ...(made ? [] : [`The job is ${state}.`]),
    ...openNcrs.map((number) => `NCR ${number} is open.`),
    ...openHolds,
    ...(outside?.open === true ? [`Not back from others: ${outside.work}.`] : []),
  ];
}

function factsOf({ job, drawingNumber, dueOn, at }: DossierOnFile): Fact[] {
  const good = job.steps.at(-1)?.goodCount ?? 0;
  return [
    ['Customer', job.customerName],
    ['Customer’s order', job.customerOrder],
    ['Order', String(job.orderNumber)],
    ['Part', `${job.partNumber}, ${job.partName}`],
    ['Revision made', job.revision],
    ['Revision ordered', job.orderedRevision],
    ['Drawing', drawingNumber],
    ['Quantity', `${job.quantity} ordered, ${good} good`],
    ['Due', dueOn],
    ['Finished', job.finishedAt && at(job.finishedAt)],
  ];
}

/** A heading with its table; a part of which nothing is on file says so. */
function part(title: string, content: Content | null): Content[] {
  return [heading(title), content ?? paragraph('None on file.')];
}

interface Column<Row> {
  readonly title: string;
  readonly width: number | '*';
  readonly of: (row: Row) => string;
}

function listOf<Row>(rows: readonly Row[], columns: readonly Column<Row>[]): Content | null {
  if (rows.length === 0) return null;
  return table(
    columns,
    rows.map((row) => columns.map(({ of }) => of(row))),
  );
}

function trips({ trips: all }: DossierOnFile): Content | null {
  return listOf(all, [
    { title: 'What', width: '*', of: ({ work: asked }) => asked },
    { title: 'By whom', width: 100, of: ({ toWhom }) => toWhom },
    { title: 'Sent', width: 60, of: ({ sentOn }) => sentOn },
    { title: 'Back', width: 60, of: ({ backOn }) => backOn ?? 'not yet' },
    { title: 'Certificate', width: 80, of: ({ certificate }) => certificate ?? 'none on file' },
  ]);
}

function work({ job, runs, at }: DossierOnFile): Content | null {
  const stepOf = (run: Run) => job.steps.find(({ id }) => id === run.jobStepId);
  return listOf(runs, [
    { title: 'Step', width: 84, of: (run) => `${stepOf(run)?.number} ${stepOf(run)?.name}` },
    { title: 'Cell', width: 34, of: ({ cellCode }) => cellCode },
    { title: 'Person', width: '*', of: (run) => `${run.personCode} ${run.personName}` },
    { title: 'WPS', width: 66, of: ({ wpsLabel }) => wpsLabel ?? 'none named' },
    { title: 'From, to', width: 116, of: (run) => fromTo(run.startedAt, run.endedAt, at) },
    { title: 'Good', width: 30, of: ({ goodCount }) => String(goodCount) },
    { title: 'Rework', width: 38, of: ({ reworkCount }) => String(reworkCount) },
    { title: 'Scrap', width: 32, of: ({ scrapCount }) => String(scrapCount) },
  ]);
}

function readings({ runs, at }: DossierOnFile): Content | null {
  const rows = runs.flatMap((run) => run.readings.map((reading) => ({ run, reading })));
  return listOf(rows, [
    { title: 'When', width: 116, of: ({ reading }) => at(reading.happenedAt) },
    { title: 'Cell', width: 34, of: ({ run }) => run.cellCode },
    { title: 'Read', width: '*', of: ({ reading }) => readWords(reading) ?? '' },
    {
      title: 'With',
      width: 96,
      of: ({ reading }) => listed(reading.instrument, reading.place) ?? '',
    },
    { title: 'By', width: 32, of: ({ reading }) => reading.personCode },
    { title: 'Against the WPS', width: 62, of: ({ reading }) => spaced(reading.result) },
  ]);
}

function readWords(reading: Run['readings'][number]): string | null {
  const named = (name: string, value: number | null, unit: string) =>
    value === null ? null : `${name} ${amount(value, unit)}`;
  return listed(
    reading.weldNumber === null ? null : `weld ${reading.weldNumber}`,
    amount(reading.currentA, 'A'),
    amount(reading.voltageV, 'V'),
    named('wire', reading.wireSpeedMMin, 'm/min'),
    named('travel', reading.travelMmMin, 'mm/min'),
    named('preheat', reading.preheatC, '°C'),
    named('interpass', reading.interpassC, '°C'),
  );
}

function lots({ lots: uses, at }: DossierOnFile): Content | null {
  return listOf(uses, [
    { title: 'Lot', width: 60, of: ({ lotNumber }) => lotNumber },
    { title: 'What', width: '*', of: (lot) => listed(lot.itemName, lot.designation) ?? '' },
    { title: 'Certificate', width: 84, of: ({ certificate }) => certificate ?? 'not on file' },
    { title: 'Step, cell', width: 56, of: (lot) => `${lot.stepNumber}, ${lot.cellCode}` },
    { title: 'Parts', width: 44, of: partsWords },
    { title: 'Loaded', width: 116, of: (lot) => fromTo(lot.from, lot.to, at) },
  ]);
}

function partsWords({ fromPart, toPart }: LotUse): string {
  return fromPart === null || toPart === null ? 'none' : `${fromPart} to ${toPart}`;
}

function firstPieces({ firstPieces: checks, at }: DossierOnFile): Content | null {
  return listOf(checks.toReversed(), [
    { title: 'Step, cell', width: 56, of: (check) => `${check.stepNumber}, ${check.cellCode}` },
    { title: 'Check', width: 34, of: ({ scope }) => scope },
    { title: 'Sizes', width: '*', of: ({ sizes }) => sizes.map(sizeWords).join('; ') },
    { title: 'Visual', width: 84, of: visualWords },
    { title: 'Result', width: 58, of: ({ result }) => spaced(result) },
    { title: 'Signed', width: 116, of: (check) => signatures(check, at) },
  ]);
}

function sizeWords(size: FirstPiece['sizes'][number]): string {
  const { weldNumber, measure, measuredMm, nominalMm, inside } = size;
  const found = `weld ${weldNumber} ${measure} ${numberWords(measuredMm)} mm`;
  return `${found}, drawn ${numberWords(nominalMm)}${inside ? '' : ': outside'}`;
}

function visualWords({ visual, imperfections, qualityLevel }: FirstPiece): string {
  return listed(`${visual}, level ${qualityLevel}`, ...imperfections.map(spaced)) ?? '';
}

function signatures(check: FirstPiece, at: DossierOnFile['at']): string {
  const { signedBy, signedAt, qaSignedBy, qaSignedAt } = check;
  const first = `${signedBy}, ${at(signedAt)}`;
  return qaSignedBy === null || qaSignedAt === null
    ? first
    : `${first}; QA ${qaSignedBy}, ${at(qaSignedAt)}`;
}

function ncrs({ ncrs: found, at }: DossierOnFile): Content | null {
  return listOf(found, [
    { title: 'NCR', width: 30, of: ({ number }) => String(number) },
    { title: 'State', width: 44, of: ({ state }) => state },
    { title: 'Found', width: 150, of: (ncr) => foundWords(ncr, at) },
    { title: 'Decided', width: '*', of: ({ decisions }) => decisions.map(decidedWords).join('; ') },
    { title: 'Closed', width: 100, of: (ncr) => listed(ncr.closedBy, ncr.closeNote) ?? 'no' },
  ]);
}

function foundWords(ncr: Ncr, at: DossierOnFile['at']): string {
  const { defect, quantity, weldNumber, description, raisedBy, raisedAt } = ncr;
  const where = weldNumber === null ? null : `weld ${weldNumber}`;
  const what = listed(`${quantity} parts: ${spaced(defect)}`, where, description) ?? '';
  return `${what}. ${raisedBy}, ${at(raisedAt)}`;
}

function decidedWords(decision: Ncr['decisions'][number]): string {
  const { disposition, quantity, wpsLabel, concession, reason, decidedBy } = decision;
  const inspected =
    decision.accepted === null
      ? null
      : `${decision.accepted} accepted by ${decision.inspectedBy ?? 'nobody named'}`;
  const how = listed(wpsLabel && `by ${wpsLabel}`, concession, reason, decidedBy, inspected);
  return `${quantity} ${spaced(disposition)}: ${how ?? ''}`;
}

function points({ points: asked, jobHolds, at }: DossierOnFile): Content | null {
  const rows = [
    ...asked.map((point) => ({
      what: `${point.kind} point, step ${point.stepNumber} ${point.stepName}`,
      opened: at(point.openedAt),
      ended: point.result === null ? 'open' : spaced(point.result),
      by: listed(point.closedBy, point.closedAt && at(point.closedAt), point.note) ?? '',
    })),
    ...jobHolds.map((hold) => ({
      what: `quarantine: ${hold.reason}`,
      opened: `${hold.placedBy}, ${at(hold.placedAt)}`,
      ended: hold.liftedAt === null ? 'open' : 'lifted',
      by: listed(hold.liftedBy, hold.liftedAt && at(hold.liftedAt), hold.liftReason) ?? '',
    })),
  ];
  return listOf(rows, [
    { title: 'What', width: '*', of: ({ what }) => what },
    { title: 'Since', width: 116, of: ({ opened }) => opened },
    { title: 'Ended', width: 50, of: ({ ended }) => ended },
    { title: 'By', width: 140, of: ({ by }) => by },
  ]);
}

function overrides({ overrides: given, at }: DossierOnFile): Content | null {
  return listOf(given, [
    { title: 'Rule', width: 90, of: ({ rule }) => spaced(rule) },
    { title: 'Reason', width: '*', of: ({ reason }) => reason },
    { title: 'For', width: 90, of: ({ forPerson }) => forPerson ?? 'the step' },
    { title: 'Signed', width: 116, of: (row) => `${row.signedBy}, ${at(row.signedAt)}` },
    { title: 'Until', width: 116, of: ({ expiresAt }) => at(expiresAt) },
  ]);
}

function happened({ history, at }: DossierOnFile): Content | null {
  return listOf(history.toReversed(), [
    { title: 'When', width: 116, of: (entry) => at(entry.at) },
    { title: 'What', width: 110, of: ({ type }) => spaced(type.replaceAll('.', ' ')) },
    {
      title: 'Who',
      width: 120,
      of: (entry) => listed(entry.actorName, entry.actorCode) ?? 'the tool',
    },
    { title: 'Why', width: '*', of: (entry) => listed(entry.meaning, entry.reason) ?? '' },
  ]);
}

function fromTo(from: string, to: string | null, at: DossierOnFile['at']): string {
  return to === null ? `${at(from)}, still` : `${at(from)} to ${at(to)}`;
}

/** `lackOfFusion` as the standard writes it: "lack of fusion". */
function spaced(name: string): string {
  return name.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
}
