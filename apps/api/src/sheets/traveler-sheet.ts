import { jobAddressOf, type Job, type Revision, type Step, type Weld } from '@tackboard/contract';
import type { Content } from 'pdfmake/interfaces.js';
import { numberWords } from '../queue/fit-words.js';
import { fact, heading, paragraph, table, type Fact } from './blocks.js';
import { soft } from './colours.js';
import type { Sheet } from './frame.js';
import { weldTable } from './weld-rows.js';

export interface TravelerOnFile {
  readonly job: Job;
  readonly revision: Revision;
  readonly part: { readonly coded: boolean; readonly traceability: string };
  /** `WPS-014 r2` of each number that may be used today. */
  readonly procedures: ReadonlyMap<string, string>;
  /** The due day in words. */
  readonly dueOn: string;
}

const ended: Readonly<Partial<Record<Job['state'], string>>> = {
  cancelled: 'CANCELLED, MAKE NOTHING BY THIS',
  closedShort: 'CLOSED SHORT, MAKE NOTHING BY THIS',
};

/** What goes with a job through the shop: its steps, holds and welds, and a code to scan at the cell. */
export function travelerSheet(onFile: TravelerOnFile): Sheet {
  const { job, revision } = onFile;
  return {
    title: 'Traveler',
    subject: `Job ${job.number}, ${job.partNumber}`,
    revision: revision.label,
    mark: ended[job.state] ?? (job.released ? null : 'ON HOLD, DO NOT START'),
    showsWork: true,
    content: [
      {
        columnGap: 12,
        columns: [
          { width: '*', stack: factsOf(onFile).map(fact) },
          { width: 120, stack: code(job) },
        ],
      },
      heading('Holds'),
      ...holds(onFile).map(paragraph),
      heading('Steps'),
      steps(onFile),
      ...instructions(revision.steps),
      heading('Welds'),
      weldTable(revision.welds, (weld) => procedureWords(stepOf(revision, weld), onFile)),
    ],
  };
}

function code({ id, number }: Job): Content[] {
  return [
    { qr: jobAddressOf(id), fit: 108, eccLevel: 'M' },
    { text: `Scan at the cell, or type ${number}`, fontSize: 8, color: soft, margin: [0, 3, 0, 0] },
  ];
}

function factsOf({ job, revision, part, dueOn }: TravelerOnFile): Fact[] {
  return [
    ['Part', `${job.partNumber}, ${job.partName}`],
    ['Revision to make', revision.label],
    ['Revision ordered', job.orderedRevision],
    ['Drawing', revision.drawingNumber],
    ['Quantity', String(job.quantity)],
    ['Due', dueOn],
    ['Customer', job.customerName],
    ['Customer’s order', job.customerOrder],
    ['Order', String(job.orderNumber)],
    ['Qualified work', part.coded ? 'coded: qualified people and procedures' : 'not coded'],
    ['Traced per', part.traceability],
    ['Done by others', outsideWords(job)],
  ];
}

function outsideWords({ outside }: Job): string | null {
  if (outside === null) return null;
  const { work, days } = outside;
  return `${work}, ${days} ${days === 1 ? 'day' : 'days'}, after the last step`;
}

function holds({ job, revision }: TravelerOnFile): string[] {
  const points = revision.steps
    .filter(({ holdPoint }) => holdPoint)
    .map(
      ({ number, name }) => `Hold point: step ${number} ${name} is not left before it is released.`,
    );
  const lines = [
    ...(job.released ? [] : [`On hold: ${job.holdReason ?? 'no reason is on file'}`]),
    ...job.openNcrs.map(
      (number) => `NCR ${number} is open: nothing of the job leaves before it is closed.`,
    ),
    ...points,
  ];
  return lines.length === 0 ? ['None on file when this was printed.'] : lines;
}

function steps(onFile: TravelerOnFile): Content {
  const { job, revision } = onFile;
  return table(
    [
      { title: 'Step', width: 84 },
      { title: 'Cell', width: 36 },
      { title: 'WPS', width: '*' },
      { title: 'Planned', width: 52 },
      { title: 'Good', width: 46 },
      { title: 'Scrap', width: 46 },
      { title: 'Name, date', width: 92 },
    ],
    job.steps.map(({ number, name, cellCode, plannedMin, goodCount, scrapCount }) => {
      const step = revision.steps.find((each) => each.number === number);
      return [
        `${number} ${name}`,
        cellCode,
        procedureWords(step, onFile),
        `${numberWords(Math.round(plannedMin))} min`,
        toWriteOn(goodCount),
        toWriteOn(scrapCount),
        '\n ',
      ];
    }),
  );
}

/** What is counted already; otherwise room for the pencil. */
function toWriteOn(count: number): string {
  return count === 0 ? ' ' : String(count);
}

function procedureWords(step: Step | undefined, { procedures }: TravelerOnFile): string {
  const number = step?.wpsNumber ?? null;
  if (number === null) return 'none named';
  return procedures.get(number) ?? `${number}: no approved revision`;
}

function stepOf({ steps }: Revision, { stepNumber }: Weld): Step | undefined {
  return steps.find(({ number }) => number === stepNumber);
}

function instructions(steps: readonly Step[]): Content[] {
  return steps
    .filter((step) => step.instructions !== '')
    .map(({ number, instructions }) => paragraph(`Step ${number}: ${instructions}`));
}
