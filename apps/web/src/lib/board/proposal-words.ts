import type { OrderMove, OrderProposal, PlannedChangeOver } from '@tackboard/contract';
import { duration } from '../format/time.js';
import { m } from '../paraglide/messages.js';

type StepMove = OrderMove['steps'][number];

/** Names a move while better orders come in: the same steps are the same move. */
export function moveKey({ steps }: OrderMove): string {
  return steps.map(({ jobStepId, toCellCode }) => `${jobStepId} ${toCellCode}`).join(' ');
}

/** Which job goes where, "Job 731 before job 728 at R1". */
export function moveWords({ steps }: OrderMove): string {
  return steps.map(stepWords).join(m.proposal_and());
}

function stepWords({ jobNumber, partNumber, fromCellCode, toCellCode, before }: StepMove): string {
  const at = { job: jobNumber, part: partNumber, from: fromCellCode, cell: toCellCode };
  if (fromCellCode === toCellCode)
    return before === null
      ? m.proposal_move_end(at)
      : m.proposal_move_before({ ...at, before: before.jobNumber });
  return before === null
    ? m.proposal_move_over_end(at)
    : m.proposal_move_over_before({ ...at, before: before.jobNumber });
}

/** What a move does: change-over first, then each customer that is better or worse off. */
export function effectWords({ changeOverMin, reasons }: OrderMove): string {
  const minutes = duration(Math.abs(changeOverMin));
  const changeOver =
    changeOverMin < 0 ? [m.proposal_saves({ minutes })] : [m.proposal_adds({ minutes })];
  const words = [
    ...(Math.round(changeOverMin) === 0 ? [] : changeOver),
    ...reasons.map(reasonWords),
  ];
  return words.length === 0 ? m.proposal_no_effect() : words.join('; ');
}

function reasonWords({ kind, customer, cost, lateMin }: OrderMove['reasons'][number]): string {
  if (kind === 'announcedStart')
    return cost < 0 ? m.proposal_start_kept({ customer }) : m.proposal_start_missed({ customer });
  const minutes = duration(Math.abs(lateMin));
  return lateMin < 0
    ? m.proposal_less_late({ customer, minutes })
    : m.proposal_later({ customer, minutes });
}

/** What the order of today costs, and the proposed one. */
export function costWords({ todayCost, proposedCost }: OrderProposal): string | null {
  if (todayCost === null || proposedCost === null) return null;
  const today = lateWords(todayCost);
  if (proposedCost >= todayCost) return m.proposal_cost_same({ today });
  return m.proposal_cost({
    ...{ today, proposed: lateWords(proposedCost) },
    less: duration(todayCost - proposedCost),
  });
}

function lateWords(cost: number): string {
  return Math.round(cost) === 0
    ? m.proposal_nothing_late()
    : m.proposal_late({ minutes: duration(cost) });
}

const kindWords = {
  wire: m.order_topic_wire,
  gas: m.order_topic_gas,
  torch: m.order_topic_torch,
  fixture: m.order_topic_fixture,
  program: m.order_topic_program,
} as const satisfies Record<PlannedChangeOver['changed'][number], () => string>;

export function changedWords({ changed }: Pick<PlannedChangeOver, 'changed'>): string {
  return changed.map((kind) => kindWords[kind]()).join(', ');
}

/** What the minutes of a change-over rest on: how often it was measured and within what band, or the table. */
export function basisWords(planned: PlannedChangeOver): string {
  const { basis, runs, lowMin, highMin } = planned;
  if (basis === 'measured' && runs !== null && lowMin !== null && highMin !== null) {
    const band = { low: duration(lowMin), high: duration(highMin) };
    return m.proposal_change_measured({ runs, ...band });
  }
  return basis === 'wholeSetUp' ? m.proposal_change_whole() : m.proposal_change_table();
}

export function stateWords({ state, round, moves, proven, trouble }: OrderProposal): string {
  switch (state) {
    case 'searching':
      return round === 0 ? m.proposal_searching() : m.proposal_searching_on();
    case 'failed':
      return trouble ?? m.proposal_failed();
    case 'stopped':
      return m.proposal_stopped();
    case 'done':
      if (moves.length === 0) return proven ? m.proposal_best_already() : m.proposal_none_found();
      return proven ? m.proposal_proven() : m.proposal_done();
  }
}
