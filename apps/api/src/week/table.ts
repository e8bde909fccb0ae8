import { lostCauses, type CellWeek, type Week } from '@tackboard/contract';
import { stringify } from 'csv-stringify/sync';

type Column = readonly [header: string, of: (cell: CellWeek, week: Week) => string | number | null];

const causeWords = {
  handling: 'handling',
  setUp: 'set-up',
  waitingParts: 'waiting for parts',
  waitingProgram: 'waiting for a program',
  waitingInspection: 'waiting for inspection',
  waitingPerson: 'waiting for a person',
  fault: 'fault',
  rework: 'rework',
  noWork: 'no work',
} as const satisfies Record<(typeof lostCauses)[number], string>;

const columns: readonly Column[] = [
  ['week', (_, { label }) => label],
  ['from', (_, { from }) => from],
  ['to', (_, { to }) => to],
  ['complete', (_, { complete }) => (complete ? 'yes' : 'so far')],
  ['cell', ({ cellCode }) => cellCode],
  ['cell name', ({ cellName }) => cellName],
  ['planned [h]', ({ plannedH }) => rounded(plannedH)],
  ['staffed [h]', ({ staffedH }) => rounded(staffedH)],
  ['running [h]', ({ runningH }) => rounded(runningH)],
  ['arc [h]', ({ arcH }) => rounded(arcH)],
  ['arc of planned [%]', ({ ofPlanned }) => percent(ofPlanned)],
  ['arc of staffed [%]', ({ ofStaffed }) => percent(ofStaffed)],
  ['arc of running [%]', ({ ofRunning }) => percent(ofRunning)],
  ...lostCauses.map((cause): Column => [
    `lost ${causeWords[cause]} [h]`,
    ({ lostH }) => rounded(lostH[cause]),
  ]),
  ['overtime [h]', ({ overtimeH }) => rounded(overtimeH)],
  ['good [parts]', ({ goodCount }) => goodCount],
  ['rework [parts]', ({ reworkCount }) => reworkCount],
  ['scrap [parts]', ({ scrapCount }) => scrapCount],
  ['runs', ({ runCount }) => runCount],
  ['arc counted [h]', ({ arcSources }) => rounded(arcSources.countedH)],
  ['arc typed [h]', ({ arcSources }) => rounded(arcSources.typedH)],
  ['arc from counter [h]', ({ arcSources }) => rounded(arcSources.counterH)],
];

/** The week as comma-separated text, a row per cell. */
export function weekTable(week: Week): string {
  const rows = week.cells.map((cell) =>
    columns.map(([, of]) => {
      const value = of(cell, week);
      return typeof value === 'string' ? asText(value) : value;
    }),
  );
  return stringify([columns.map(([header]) => header), ...rows]);
}

/** Four decimals of an hour are less than a second: enough to add up again. */
function rounded(valueH: number): number {
  return Math.round(valueH * 10_000) / 10_000;
}

function percent(share: number | null): number | null {
  return share === null ? null : Math.round(share * 10_000) / 100;
}

/** A spreadsheet would run text that begins like a formula; an apostrophe keeps it text. */
function asText(value: string): string {
  return /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
}
