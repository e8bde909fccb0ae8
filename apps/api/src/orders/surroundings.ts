import type { PolicyTable } from '@tackboard/calc';
import type { Cell, Certificate } from '@tackboard/contract';
import type { CellsService } from '../cells/service.js';
import { shopDay } from '../clock.js';
import type { ConsumablesService } from '../consumables/service.js';
import type { Foundation } from '../foundation.js';
import type { PeopleService } from '../people/service.js';
import type { PolicyService } from '../policy/service.js';
import type { ApprovedWps, ProceduresService } from '../procedures/service.js';
import { clearanceOf } from '../queue/clearance.js';
import type { CertificateFacts } from '../queue/facts.js';
import { fitOf } from '../queue/fit.js';
import { qualifiedPeople } from '../queue/person-rule.js';
import { fitLines } from '../queue/ready.js';
import type { QueueService } from '../queue/service.js';
import { cellPlanReader } from './cell-plan-store.js';
import { processesLackingAt } from './could-do.js';
import { currentAtDuty } from './current-at-duty.js';
import { clockWords } from './day-words.js';
import type { PlannedStep } from './line-plan.js';
import type { SetUpAtCell } from './plan-store.js';
import { arcLengthOf } from './planned-time-of.js';
import type { LoadedItem, StepFacts } from './ready-notes.js';
import type { ShopQueues } from './shop-queues.js';

export interface OtherAreas {
  readonly cells: Pick<CellsService, 'hours' | 'list'>;
  readonly consumables: Pick<ConsumablesService, 'items'>;
  readonly people: Pick<PeopleService, 'certificates' | 'list'>;
  readonly procedures: Pick<ProceduresService, 'approvedByNumbers'>;
  readonly policy: Pick<PolicyService, 'table'>;
  readonly queue: QueueService;
}

/** A step and the cell it is or would be made at. */
export type StepAtCell = Pick<PlannedStep, 'step' | 'cell'>;

/** What the notes of all steps are written from. */
export interface Surroundings {
  readonly approved: ReadonlyMap<string, ApprovedWps>;
  readonly certificates: readonly CertificateFacts[];
  readonly loads: ReadonlyMap<string, readonly LoadedItem[]>;
  readonly stock: ReadonlyMap<string, number>;
  readonly cells: ReadonlyMap<string, Cell>;
  readonly queues: ShopQueues;
  readonly policy: PolicyTable;
  readonly now: Date;
  readonly timeZone: string;
}

export async function surroundings(
  { database, timeZone }: Foundation,
  { people, procedures, consumables, cells, policy }: OtherAreas,
  { steps, now, queues }: { steps: readonly StepAtCell[]; now: Date; queues: ShopQueues },
): Promise<Surroundings> {
  const cellIds = [...new Set(steps.map(({ cell }) => cell.id))];
  const { certificates } = await people.certificates();
  const { items } = await consumables.items();
  const { cells: all } = await cells.list();
  return {
    approved: await procedures.approvedByNumbers(steps.flatMap(({ step }) => step.wpsNumber ?? [])),
    certificates: certificates.map(certificateFacts),
    loads: await cellPlanReader(database.reader).loads(cellIds),
    stock: new Map(items.map(({ id, stock }) => [id, stock])),
    cells: new Map(all.map((cell) => [cell.id, cell])),
    policy: await policy.table(),
    ...{ queues, now, timeZone },
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

/** What one planned step is judged by before it has a place in a run queue. */
export function factsOf(
  { step, cell }: StepAtCell,
  batch: { quantity: number; coded: boolean },
  around: Surroundings,
): StepFacts {
  const { approved, certificates, loads, now, timeZone, policy } = around;
  const { number, wpsNumber, welds } = step;
  const approvedWps = wpsNumber === null ? null : (approved.get(wpsNumber) ?? null);
  const setUp = keptAt(step.setUps, cell.id, timeZone);
  const ratedCell = around.cells.get(cell.id);
  const people = qualifiedPeople({
    certificates,
    cell,
    welds,
    today: shopDay(now, timeZone),
    code: approvedWps?.code ?? null,
    policy,
  });
  return {
    ...{ number, wpsNumber, quantity: batch.quantity, cell, approvedWps, setUp },
    fit: fitFacts({
      ...{ approvedWps, setUp, welds, cell, policy },
      record: { coded: batch.coded, wpsNumber },
    }),
    lackingProcesses:
      ratedCell === undefined
        ? []
        : processesLackingAt(
            ratedCell,
            welds.map(({ process }) => process),
          ),
    loaded: loads.get(cell.id) ?? [],
    stock: around.stock,
    arcLengthMm: arcLengthOf(welds, setUp),
    weldCount: welds.reduce((sum, weld) => sum + weld.count, 0),
    gasLossFactor: ratedCell?.gasLossFactor ?? 1,
    current: ratedCell === undefined ? null : currentAtDuty(step, ratedCell),
    qualifiedPeople: people.map(({ code, name }) => `${code} ${name}`),
    nextHours: nextHours(around, cell.id),
  };
}

function fitFacts(facts: {
  approvedWps: ApprovedWps | null;
  setUp: StepFacts['setUp'];
  welds: PlannedStep['step']['welds'];
  cell: PlannedStep['cell'];
  record: { coded: boolean; wpsNumber: string | null };
  policy: PolicyTable;
}): StepFacts['fit'] {
  const { approvedWps, ...rest } = facts;
  const wps = approvedWps && { ...approvedWps, state: 'approved' as const };
  const fit = fitOf({ ...rest, wps });
  return fitLines({ wps }, fit).map((line) => ({
    ...line,
    ...clearanceOf({ ...line, overriddenBy: null }, fit.answer),
  }));
}

function keptAt(
  setUps: readonly SetUpAtCell[],
  cellId: string,
  timeZone: string,
): StepFacts['setUp'] {
  const kept = setUps.find((setUp) => setUp.cellId === cellId);
  return kept ? { ...kept, frozenOn: shopDay(kept.frozenAt, timeZone) } : null;
}

function nextHours({ queues, timeZone }: Surroundings, cellId: string): string | null {
  const windows = queues.lanes.find((lane) => lane.cellId === cellId)?.windows ?? [];
  const next = windows.find(({ endMin }) => endMin > queues.fromMin);
  if (next === undefined) return null;
  if (next.startMin <= queues.fromMin) return 'now';
  return `from ${clockWords(new Date(next.startMin * 60_000), timeZone)}`;
}
