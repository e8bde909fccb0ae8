import type { BodyOf, OrderCheck, orders, RobotOrBooth } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { weekdayWords } from './day-words.js';
import { draftLine } from './line-drafts.js';
import { loadLineFacts, planLine, type LineFacts, type LinePlan } from './line-plan.js';
import { otherWayReader } from './other-way-store.js';
import { planReader } from './plan-store.js';
import { unitTimeOf, type StepTimes } from './planned-time-of.js';
import type { PastRun } from './planning.js';
import { promiseOf } from './promise.js';
import { promiseReader } from './promise-store.js';
import { compareWays, type WayTimes } from './robot-or-booth.js';
import { readQueues } from './shop-queues.js';
import type { OtherAreas } from './surroundings.js';

type CheckInput = BodyOf<(typeof orders)['check']>;

/** What an order line needs and where it could go; nothing is stored. */
export function checkService(foundation: Foundation, others: OtherAreas) {
  const { database, clock, timeZone } = foundation;
  return {
    async check(actor: Actor, line: CheckInput): Promise<OrderCheck> {
      const now = clock.now();
      const facts = await loadLineFacts(database.reader, [line.partId]);
      const plan = planLine(line, facts, {
        ...{ now, timeZone, field: 'body', customerId: line.customerId },
      });
      const addedMin = plan.steps.reduce((sum, { time }) => sum + time.plannedMin, 0);
      const queues = await readQueues(others, { now, addedMin });
      const { dueOn } = line;
      const takerId = actingPerson(actor).id;
      const asked = { line, plan, cells: facts.cells, queues, now, takerId };
      const { notes, placed, drafts } = await draftLine(foundation, others, asked);
      const past = promiseReader(database.reader);
      const ofCell = plan.steps.at(-1)?.cell.id ?? '';
      return {
        revisionState: plan.revision.state,
        lastMade: plan.lastMade?.on ?? null,
        notes: notes.map(({ note }) => note),
        assignments: drafts.map(({ stepNumber, topic, person, dueOn: by }) => ({
          ...{ stepNumber, topic, dueOn: by },
          ...{ personCode: person.code, personName: person.name },
        })),
        cells: plan.steps.map(({ step, cell, time }) => {
          const finishMin = placed.stepFinishMin.get(step.number) ?? null;
          return {
            ...time,
            ...{ stepNumber: step.number, cellId: cell.id, cellCode: cell.code },
            queuedMin: cell.queuedMin,
            finishOn: finishMin === null ? null : shopDay(new Date(finishMin * 60_000), timeZone),
          };
        }),
        places: [...placed.places],
        promise: promiseOf({
          ...{ finishMin: placed.finishMin, dueOn, timeZone },
          outside:
            plan.part.outsideWork === '' ? null : { days: plan.part.outsideDays, dueBackOn: null },
          ofPart: await past.ended({ partId: line.partId }),
          ofCell: await past.ended({ cellId: ofCell }),
        }),
        robotOrBooth: await waysOf(foundation, line, { plan, facts, now }),
        questions: plan.questions.map(({ field, text }) => ({ field, text })),
        dueEcho: weekdayWords(dueOn),
      };
    },
  };
}

/** Only for a part that is made in one step: there the other kind of cell would do the whole of it. */
async function waysOf(
  { database }: Foundation,
  line: CheckInput,
  { plan, facts, now }: { plan: LinePlan; facts: LineFacts; now: Date },
): Promise<RobotOrBooth | null> {
  const [planned, ...more] = plan.steps;
  if (planned === undefined || more.length > 0) return null;
  const { step, cell } = planned;
  const otherKind = step.cellKind === 'robot' ? 'booth' : 'robot';
  const other = await otherWayReader(database.reader).step(plan.part.id, otherKind);
  if (other === null) return null;
  const otherPast = (await planReader(database.reader).pastRuns([other.id])).get(other.id) ?? [];
  const otherCell = facts.cells.find(({ kind }) => kind === otherKind);
  const ways = {
    [step.cellKind]: wayOf(step, facts.pastRuns.get(step.id) ?? [], cell),
    [otherKind]: wayOf(other, otherPast, otherCell ?? { id: '', stations: 1 }),
  };
  const proven = step.cellKind === 'robot' && step.setUps.some(({ program }) => program !== null);
  return compareWays({
    quantity: line.quantity,
    robot: ways['robot'] ?? null,
    booth: ways['booth'] ?? null,
    programmingMin: proven ? 0 : line.programmingMin,
    returns: await promiseReader(database.reader).returns(plan.part.returnChance),
    now,
  });
}

function wayOf(
  step: StepTimes,
  past: readonly PastRun[],
  cell: { id: string; stations: number },
): WayTimes | null {
  const { unitMin } = unitTimeOf(step, { past, cell });
  return unitMin === 0 ? null : { fixedMin: step.setUpMin + step.firstPieceMin, unitMin };
}
