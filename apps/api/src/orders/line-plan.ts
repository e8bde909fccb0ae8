import type { BodyOf, orders, PlannedTime } from '@tackboard/contract';
import { shopDay } from '../clock.js';
import type { Db } from '../db/client.js';
import { notFound, Refusal, refuseField } from '../refusal.js';
import { beyondLimits } from '../queue/cell-limits.js';
import { carriesCurrent, isEquippedFor, type StepAbilities } from './could-do.js';
import { cellPlanReader, type PlanCell } from './cell-plan-store.js';
import { median, questionsOf, type LineQuestion } from './line-questions.js';
import { planReader, type PartHistory, type PlanPart, type PlanStep } from './plan-store.js';
import { plannedTimeOf } from './planned-time-of.js';
import { proposeCell, type PastRun } from './planning.js';
import { revisionAnswer, type LastMade } from './revision-state.js';

export type OrderLine = BodyOf<(typeof orders)['add']>['lines'][number];

/** What lines are judged by, read once for all of them. */
export interface LineFacts {
  readonly parts: ReadonlyMap<string, PlanPart>;
  readonly histories: ReadonlyMap<string, PartHistory>;
  readonly pastRuns: ReadonlyMap<string, readonly PastRun[]>;
  readonly cells: readonly PlanCell[];
}

export async function loadLineFacts(db: Db, partIds: readonly string[]): Promise<LineFacts> {
  const store = planReader(db);
  const parts = await store.parts(partIds);
  const stepIds = [...parts.values()].flatMap(({ released }) =>
    (released?.steps ?? []).map(({ id }) => id),
  );
  return {
    parts,
    histories: await store.histories(partIds),
    pastRuns: await store.pastRuns(stepIds),
    cells: await cellPlanReader(db).cells(),
  };
}

export interface PlannedStep {
  readonly step: PlanStep;
  readonly cell: PlanCell;
  readonly time: PlannedTime;
  /** The queued step to stand before; null is the end of the run queue. */
  readonly before: { readonly stepId: string; readonly field: string } | null;
}

export interface LinePlan {
  readonly part: PlanPart;
  readonly revisionId: string;
  readonly revision: ReturnType<typeof revisionAnswer>;
  readonly lastMade: LastMade | null;
  readonly steps: readonly PlannedStep[];
  readonly questions: readonly LineQuestion[];
}

interface At {
  readonly now: Date;
  readonly timeZone: string;
  /** Dotted path of the line in the body, e.g. `body.lines.0`. */
  readonly field: string;
  /** Who orders; null where that is not known yet. */
  readonly customerId: string | null;
}

/** One line against the shop as it stands; refuses what cannot be made at all. */
export function planLine(line: OrderLine, facts: LineFacts, at: At): LinePlan {
  const { part, released } = makeable(line.partId, facts.parts, at.field);
  const history = facts.histories.get(part.id);
  const last = history?.lastMade ?? null;
  const lastMade = last && {
    revision: last.revision,
    on: shopDay(last.finishedAt, at.timeZone),
  };
  const usualQuantity = median(history?.quantities ?? []);
  return {
    part,
    revisionId: released.id,
    lastMade,
    revision: revisionAnswer({
      ordered: line.orderedRevision,
      released: released.label,
      lastMade,
      prints: { ordered: line.drawingPrint, released: released.drawingPrint },
    }),
    steps: planSteps(released.steps, line, facts, at.field),
    questions: questionsOf(line, {
      ...{ today: shopDay(at.now, at.timeZone), usualQuantity },
      part: { number: part.number, keptFor: keptForOther(part, history, at.customerId) },
    }),
  };
}

/** The name of the customer whom a part is kept for, where somebody else orders it for the first time. */
function keptForOther(
  { customer }: PlanPart,
  history: PartHistory | undefined,
  customerId: string | null,
): string | null {
  if (customer === null || customerId === null || customer.id === customerId) return null;
  return history?.customerIds.has(customerId) === true ? null : customer.name;
}

/** The cells after a line was planned: the next line sees its minutes in their run queues. */
export function withQueued(cells: readonly PlanCell[], steps: readonly PlannedStep[]): PlanCell[] {
  return cells.map((cell) => {
    const own = steps.filter((step) => step.cell.id === cell.id);
    const addedMin = own.reduce((sum, { time }) => sum + time.plannedMin, 0);
    return { ...cell, queuedMin: cell.queuedMin + addedMin };
  });
}

function makeable(partId: string, parts: LineFacts['parts'], field: string) {
  const part = parts.get(partId);
  if (part === undefined) throw notFound('part', partId, `${field}.partId`);
  if (!part.active) {
    throw new Refusal('NOT_NOW', `Part ${part.number} is no longer made. Make it active first.`);
  }
  const { released } = part;
  if (released === null || released.steps.length === 0) {
    const lacks = released === null ? 'no released revision' : 'no step in its released revision';
    throw new Refusal(
      'NOT_NOW',
      `Part ${part.number} has ${lacks}. Complete and release a revision, then take the order.`,
    );
  }
  return { part, released };
}

/** Steps with their cells: the one named, where one is named, else the one proposed. */
export function planSteps(
  steps: readonly PlanStep[],
  batch: Pick<OrderLine, 'quantity' | 'cells'>,
  facts: Pick<LineFacts, 'cells' | 'pastRuns'>,
  field: string,
): PlannedStep[] {
  refuseUnknownSteps(steps, batch.cells, field);
  return steps.map((step) => {
    const at = batch.cells.findIndex(({ stepNumber }) => stepNumber === step.number);
    const named = batch.cells[at];
    const cell =
      named === undefined
        ? proposed(step, facts.cells)
        : namedCell(step, named.cellId, {
            cells: facts.cells,
            field: `${field}.cells.${at}.cellId`,
          });
    const past = facts.pastRuns.get(step.id) ?? [];
    const beforeStepId = named?.beforeStepId ?? null;
    return {
      ...{ step, cell },
      time: plannedTimeOf(step, { quantity: batch.quantity, past, cell }),
      before:
        beforeStepId === null
          ? null
          : { stepId: beforeStepId, field: `${field}.cells.${at}.beforeStepId` },
    };
  });
}

function refuseUnknownSteps(
  steps: readonly PlanStep[],
  named: OrderLine['cells'],
  field: string,
): void {
  const numbers = steps.map(({ number }) => number);
  const at = named.findIndex(({ stepNumber }) => !numbers.includes(stepNumber));
  const unknown = named[at];
  if (unknown === undefined) return;
  throw refuseField(
    'NOT_FOUND',
    `The released revision has no step ${unknown.stepNumber}; it has ${numbers.join(', ')}.`,
    `${field}.cells.${at}.stepNumber`,
    unknown.stepNumber,
    `one of ${numbers.join(', ')}`,
  );
}

/** Whether a cell has all that a step of an order asks for, as far as it can be said. */
export function couldDo(step: PlanStep, cell: PlanCell): boolean {
  const { massKg, reachMm, mechanisations, welds } = step;
  const asks: StepAbilities = {
    processes: welds.map(({ process }) => process),
    ...{ mechanisations, handling: { massKg, reachMm }, cycle: step },
  };
  return isEquippedFor(asks, cell) && carriesCurrent(asks, cell);
}

function proposed(step: PlanStep, cells: readonly PlanCell[]): PlanCell {
  const cell = proposeCell({
    cellKind: step.cellKind,
    cells: cells.filter((each) => beyondLimits(step, each) === null),
    setUpCellIds: new Set(step.setUps.map(({ cellId }) => cellId)),
    isAble: (each) => couldDo(step, each),
  });
  if (cell !== null) return cell;
  const tooSmall = cells.flatMap((each) =>
    each.kind === step.cellKind ? (beyondLimits(step, each) ?? []) : [],
  );
  const lacks =
    tooSmall.length === 0 ? 'the shop has no active one' : `none will do: ${tooSmall.join('; ')}`;
  throw new Refusal(
    'NOT_NOW',
    `Step ${step.number} needs a ${step.cellKind}, and ${lacks}. Add the cell, or change the step.`,
  );
}

function namedCell(
  step: PlanStep,
  cellId: string,
  { cells, field }: { cells: readonly PlanCell[]; field: string },
): PlanCell {
  const cell = cells.find(({ id }) => id === cellId);
  if (cell === undefined) throw notFound('active cell', cellId, field);
  const beyond = beyondLimits(step, cell);
  if (cell.kind === step.cellKind && beyond === null) return cell;
  const fitting = cells
    .filter((each) => each.kind === step.cellKind && beyondLimits(step, each) === null)
    .map(({ code }) => code);
  const wrong = cell.kind === step.cellKind ? beyond : `${cell.code} is a ${cell.kind}`;
  throw refuseField(
    'DOES_NOT_FIT',
    `Step ${step.number} is made at a ${step.cellKind}; ${wrong}. Choose ${fitting.join(' or ') || `a ${step.cellKind}`}.`,
    field,
    cell.code,
    fitting.join(', ') || `a ${step.cellKind}`,
  );
}
