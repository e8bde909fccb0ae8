import type { BodyOf, Order, orders as routes } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import { openAssignments } from '../assignments/open.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { enqueue, type StepToQueue } from '../queue/enqueue.js';
import { notFound, Refusal } from '../refusal.js';
import { draftsForLines } from './line-drafts.js';
import {
  loadLineFacts,
  planLine,
  withQueued,
  type LinePlan,
  type OrderLine,
  type PlannedStep,
} from './line-plan.js';
import { ordersWriter, type NewJob } from './store.js';
import type { OtherAreas } from './surroundings.js';
import { toOrderView, type Today } from './views.js';

type OrderInput = BodyOf<(typeof routes)['add']>;
type Store = ReturnType<typeof ordersWriter>;

interface PlannedLine {
  readonly line: OrderLine;
  readonly plan: LinePlan;
}

/** Takes an order: numbers, jobs, queued steps and events in one commit. */
export function takeService(foundation: Foundation, others: OtherAreas) {
  const { uow, newId, timeZone } = foundation;
  return {
    async add(actor: Actor, input: OrderInput): Promise<Order> {
      const takerId = actingPerson(actor).id;
      const { lines, customerId } = input;
      const asked = { lines, customerId, takerId };
      const drafts = await draftsForLines(foundation, others, asked);
      return uow.write(actor, async (unit) => {
        const store = ordersWriter(unit.tx);
        await refuseCustomer(store, input.customerId);
        const today = { now: unit.now, timeZone };
        const planned = await planLines(unit, input, today);
        refuseOpenQuestions(planned.map(({ plan }) => plan));
        const order = {
          id: newId(),
          number: await store.nextNumbers('order', 1),
          customerId: input.customerId,
          customerNumber: input.customerOrder,
          createdAt: unit.now,
          createdBy: actingPerson(actor).id,
        };
        await store.addOrder(order);
        const jobs = await jobsOf(store, planned, { orderId: order.id, newId, now: unit.now });
        await store.addJobs(jobs);
        appendTaken(unit, { order, jobs, entryMs: input.entryMs });
        for (const [index, job] of jobs.entries()) {
          await queueSteps(unit, job.id, planned[index]?.plan.steps ?? []);
          await openAssignments(unit, job, { drafts: drafts[index] ?? [], newId });
        }
        const taken = await store.order(order.id);
        if (taken === null) throw notFound('order', order.id);
        return toOrderView(taken, { names: await store.names([order.createdBy]), today });
      });
    },
  };
}

/** The first step waits at its cell; a later one is blocked until the one before it is done. */
export async function queueSteps(
  unit: Unit,
  jobId: string,
  steps: readonly PlannedStep[],
): Promise<void> {
  const queued = steps.map(({ step, cell, time, before }, index): StepToQueue => ({
    stepId: step.id,
    number: step.number,
    cellId: cell.id,
    plannedMin: time.plannedMin,
    before,
    state: index === 0 ? 'waiting' : 'blocked',
  }));
  await enqueue(unit, { jobId, steps: queued });
}

async function refuseCustomer(store: Store, customerId: string): Promise<void> {
  const customer = await store.customer(customerId);
  if (customer === null) throw notFound('customer', customerId, 'body.customerId');
  if (customer.active) return;
  throw new Refusal(
    'NOT_NOW',
    `Customer ${customer.name} is not active. Make the customer active first.`,
  );
}

async function planLines(
  unit: Unit,
  { lines, customerId }: Pick<OrderInput, 'lines' | 'customerId'>,
  today: Today,
): Promise<PlannedLine[]> {
  const facts = await loadLineFacts(
    unit.tx,
    lines.map(({ partId }) => partId),
  );
  let { cells } = facts;
  return lines.map((line, index) => {
    const field = `body.lines.${index}`;
    const plan = planLine(line, { ...facts, cells }, { ...today, field, customerId });
    cells = withQueued(cells, plan.steps);
    return { line, plan };
  });
}

/** All lines are asked at once; a missing reason comes before an unusual quantity. */
function refuseOpenQuestions(plans: readonly LinePlan[]): void {
  const open = plans.flatMap((plan, index) =>
    plan.questions.map((question) => ({ ...question, index, part: plan.part.number })),
  );
  const code = open.find((each) => each.code === 'NEEDS_REASON')?.code ?? open[0]?.code;
  if (code === undefined) return;
  const asked = open.filter((each) => each.code === code);
  throw new Refusal(code, asked.map(({ part, text }) => `${part}: ${text}`).join(' '), {
    fields: asked.map(({ index, field, given, allowed }) => ({
      field: `body.lines.${index}.${field}`,
      given,
      allowed,
    })),
  });
}

async function jobsOf(
  store: Store,
  planned: readonly PlannedLine[],
  order: { orderId: string; newId: () => string; now: Date },
): Promise<NewJob[]> {
  const firstNumber = await store.nextNumbers('job', planned.length);
  return planned.map(({ line, plan }, index) => {
    const held = plan.revision.state === 'different';
    return {
      id: order.newId(),
      number: firstNumber + index,
      orderId: order.orderId,
      lineNumber: index + 1,
      revisionId: plan.revisionId,
      orderedRevision: line.orderedRevision,
      quantity: line.quantity,
      dueOn: line.dueOn,
      released: !held,
      holdReason: held ? plan.revision.words : null,
      pastDueReason: line.pastDueReason,
      createdAt: order.now,
    };
  });
}

function appendTaken(
  unit: Unit,
  taken: {
    order: { id: string; number: number; customerId: string; customerNumber: string };
    jobs: readonly NewJob[];
    entryMs: number | null;
  },
): void {
  const { order, jobs, entryMs } = taken;
  const { number, customerId, customerNumber } = order;
  unit.append({
    type: 'order.taken',
    subjectType: 'order',
    subjectId: order.id,
    version: 1,
    after: { number, customerId, customerNumber, jobs: jobs.map((job) => job.number), entryMs },
  });
  for (const job of jobs) {
    const { id, orderId, quantity, dueOn, orderedRevision, released, holdReason } = job;
    unit.append({
      type: 'job.taken',
      subjectType: 'job',
      subjectId: id,
      version: 1,
      after: {
        ...{ orderId, number: job.number, quantity, dueOn },
        ...{ orderedRevision, released, holdReason },
      },
      reason: job.pastDueReason,
    });
  }
}
