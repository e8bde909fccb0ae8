import type { Certificate, OrderCheck } from '@tackboard/contract';
import { addWorkingMinutes } from '../cells/planned-time.js';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import type { CertificateFacts } from '../queue/facts.js';
import { qualifiedPeople } from '../queue/person-rule.js';
import type { PeopleService } from '../people/service.js';
import type { ApprovedWps, ProceduresService } from '../procedures/service.js';
import { cellPlanReader, type CellCalendar } from './cell-plan-store.js';
import { weekdayWords } from './day-words.js';
import { loadLineFacts, planLine, type OrderLine, type PlannedStep } from './line-plan.js';
import type { SetUpAtCell } from './plan-store.js';
import { stepNotes, type LoadedItem, type StepFacts } from './ready-notes.js';

export interface OtherAreas {
  readonly people: Pick<PeopleService, 'certificates'>;
  readonly procedures: Pick<ProceduresService, 'approvedByNumbers'>;
}

/** What the notes of all steps are written from. */
interface Surroundings {
  readonly approved: ReadonlyMap<string, ApprovedWps>;
  readonly certificates: readonly CertificateFacts[];
  readonly loads: ReadonlyMap<string, readonly LoadedItem[]>;
  readonly calendars: ReadonlyMap<string, CellCalendar>;
  readonly now: Date;
  readonly timeZone: string;
}

/** What an order line needs and where it could go; nothing is stored. */
export function checkService(foundation: Foundation, others: OtherAreas) {
  const { database, clock, timeZone } = foundation;
  return {
    async check(line: OrderLine): Promise<OrderCheck> {
      const now = clock.now();
      const facts = await loadLineFacts(database.reader, [line.partId]);
      const plan = planLine(line, facts, { now, timeZone, field: 'body' });
      const around = await surroundings(foundation, others, { steps: plan.steps, now });
      return {
        revisionState: plan.revision.state,
        lastMade: plan.lastMade?.on ?? null,
        notes: [
          { topic: 'revision', state: plan.revision.note, text: plan.revision.words },
          ...plan.steps.flatMap((step) => stepNotes(factsOf(step, line.quantity, around))),
        ],
        cells: finishes(plan.steps, around),
        questions: plan.questions.map(({ field, text }) => ({ field, text })),
        dueEcho: weekdayWords(line.dueOn),
      };
    },
  };
}

async function surroundings(
  { database, timeZone }: Foundation,
  { people, procedures }: OtherAreas,
  { steps, now }: { steps: readonly PlannedStep[]; now: Date },
): Promise<Surroundings> {
  const cellIds = [...new Set(steps.map(({ cell }) => cell.id))];
  const { certificates } = await people.certificates();
  return {
    approved: await procedures.approvedByNumbers(steps.flatMap(({ step }) => step.wpsNumber ?? [])),
    certificates: certificates.map(certificateFacts),
    loads: await cellPlanReader(database.reader).loads(cellIds),
    calendars: await cellPlanReader(database.reader).calendars(cellIds),
    now,
    timeZone,
  };
}

function certificateFacts(certificate: Certificate): CertificateFacts {
  const { thicknessMm, confirmations, ...facts } = certificate;
  return {
    ...facts,
    thicknessMinMm: thicknessMm.min,
    thicknessMaxMm: thicknessMm.max,
    confirmedOn:
      confirmations
        .map(({ confirmedOn }) => confirmedOn)
        .toSorted()
        .at(-1) ?? null,
  };
}

function factsOf({ step, cell }: PlannedStep, quantity: number, around: Surroundings): StepFacts {
  const { approved, certificates, loads, now, timeZone } = around;
  const { number, wpsNumber, welds } = step;
  const today = shopDay(now, timeZone);
  return {
    number,
    wpsNumber,
    quantity,
    cell,
    approvedWps: wpsNumber === null ? null : (approved.get(wpsNumber) ?? null),
    setUp: keptAt(step.setUps, cell.id, timeZone),
    loaded: loads.get(cell.id) ?? [],
    weldLengthMm: welds.reduce((sum, weld) => sum + weld.lengthMm * weld.count, 0),
    qualifiedPeople: qualifiedPeople({ certificates, cell, welds, today }).length,
  };
}

function keptAt(
  setUps: readonly SetUpAtCell[],
  cellId: string,
  timeZone: string,
): StepFacts['setUp'] {
  const kept = setUps.find((setUp) => setUp.cellId === cellId);
  return kept ? { ...kept, frozenOn: shopDay(kept.frozenAt, timeZone) } : null;
}

/**
 * The day each step ends: its run queue first, then the batch, at planned minutes over the cell's planning factor;
 * a later step starts no sooner than the one before it ends. Null where the calendar has no such hours.
 */
function finishes(steps: readonly PlannedStep[], around: Surroundings): OrderCheck['cells'] {
  const { calendars, now, timeZone } = around;
  let before: Date | null = now;
  return steps.map(({ step, cell, plannedMin }) => {
    const calendar = calendars.get(cell.id) ?? { shifts: [], dayChanges: [] };
    const add = (from: Date | null, min: number) =>
      from && addWorkingMinutes(calendar, from, min / cell.planningFactor, timeZone);
    const free = add(now, cell.queuedMin);
    const start = free !== null && before !== null && before > free ? before : free;
    const end = before === null ? null : add(start, plannedMin);
    before = end;
    return {
      stepNumber: step.number,
      cellId: cell.id,
      cellCode: cell.code,
      plannedMin,
      queuedMin: cell.queuedMin,
      finishOn: end === null ? null : shopDay(end, timeZone),
    };
  });
}
