import type { BodyOf, ReplyOf, Run, runs } from '@tackboard/contract';
import { actingPerson, type ActingPerson, type Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import type { QueueService } from '../queue/service.js';
import { Refusal } from '../refusal.js';
import { createPullPlans, type PullPlan } from './pull-plan.js';
import { runsWriter, type NewRun } from './write-store.js';

type PullInput = BodyOf<typeof runs.pull>;
type Pulled = ReplyOf<typeof runs.pull>;

/** The step was taken or changed between judging and taking it. */
class MovedOn extends Error {}

/** How often a pull judges again when a step changed under its hand. */
const attempts = 3;

/** Takes a step: judged outside the write queue, taken inside it as it was judged. */
export function createPull({ uow, newId, timeZone }: Foundation, queue: QueueService) {
  const plans = createPullPlans(queue, timeZone);
  return async function pull(actor: Actor, cellId: string, input: PullInput): Promise<Pulled> {
    const person = actingPerson(actor);
    for (let attempt = 1; ; attempt += 1) {
      const plan = await plans.planOf(person, cellId, input);
      try {
        return await uow.write(actor, async (unit) => {
          // Thrown in here only: a repeated command gets its first answer, whatever was judged now.
          if (plan instanceof Refusal) throw plan;
          const { step, run, reply } = pulledFrom(plan, person, { id: newId(), now: unit.now });
          if (!(await runsWriter(unit.tx).take(run, step))) throw new MovedOn();
          unit.append({
            type: 'run.pulled',
            subjectType: 'run',
            subjectId: run.id,
            version: 1,
            cellId,
            after: {
              jobStepId: run.jobStepId,
              jobNumber: plan.facts.record.jobNumber,
              personCode: person.code,
              wps: reply.run.wpsLabel,
              overridden: plan.readiness.lines
                .filter(({ overriddenBy }) => overriddenBy !== null)
                .map(({ rule, overriddenBy }) => ({ rule, overriddenBy })),
            },
          });
          return reply;
        });
      } catch (error) {
        if (!(error instanceof MovedOn) || plan instanceof Refusal) throw error;
        const lost = await plans.lostTo(person, cellId, plan.facts.record.id);
        if (lost !== null) throw lost;
        if (attempt === attempts) {
          throw new Refusal('NOT_NOW', 'The step was changed just now. Look at it and pull again.');
        }
      }
    }
  };
}

function pulledFrom(plan: PullPlan, person: ActingPerson, { id, now }: { id: string; now: Date }) {
  const { record, cell, wps } = plan.facts;
  const run: NewRun = {
    ...{ id, jobStepId: record.id, cellId: cell.id, personId: person.id, wpsId: wps?.id ?? null },
    setUpId: plan.facts.setUp?.id ?? null,
    startedAt: now,
    arcSPerPart: plan.readiness.figures.arcSPerPart ?? 0,
  };
  const holder = {
    ...{ runId: id, personId: person.id, personCode: person.code, personName: person.name },
    since: now.toISOString(),
  };
  const version = record.version + 1;
  const step = { ...plan.card.step, version, state: 'held' as const, holder };
  const reply: Pulled = {
    run: newRunView(plan, person, run),
    card: { ...plan.card, step },
  };
  return { run, reply, step: { version: record.version, jobId: record.jobId } };
}

function newRunView({ facts }: PullPlan, person: ActingPerson, run: NewRun): Run {
  const { record, cell, wps } = facts;
  return {
    ...{ id: run.id, version: 1, jobStepId: record.id, jobNumber: record.jobNumber },
    ...{ partNumber: record.partNumber, cellId: cell.id, cellCode: cell.code },
    ...{ personId: person.id, personCode: person.code, personName: person.name },
    wpsLabel: wps === null ? null : `${wps.number} r${wps.revision}`,
    ...{ startedAt: run.startedAt.toISOString(), endedAt: null },
    ...{ quantity: record.quantity, stepGoodCount: record.goodCount },
    ...{ stepQuarantinedCount: record.quarantinedCount, firstPiece: facts.firstPiece },
    ...{ goodCount: 0, reworkCount: 0, scrapCount: 0, setUpMin: 0, arcS: 0, arcSource: 'counted' },
    ...{ handOverNote: null, startAsked: true, start: null, stops: [], readings: [] },
  };
}
