import type { CellView, SetUpCard } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import { shopDay } from '../clock.js';
import type { PolicyService } from '../policy/service.js';
import { cardOf } from './card.js';
import type { PersonFacts, StepFacts } from './facts.js';
import { factsReader } from './facts-store.js';
import { readinessOf, stops, type Readiness } from './ready.js';
import type { StepRecord } from './store.js';

export interface Assessment {
  readonly facts: StepFacts;
  readonly readiness: Readiness;
}

export interface NextStep {
  readonly next: Assessment | null;
  readonly passedOver: CellView['passedOver'];
}

/** Most queues have a ready step near the top: no need to read all of them at once. */
const readAtOnce = 10;

/** Reads and judges queued steps; used for the cell screen and for the pull alike. */
export function createAssessment(
  { database, clock, timeZone }: Foundation,
  policy: Pick<PolicyService, 'table'>,
) {
  const read = factsReader(database.reader);
  const today = () => shopDay(clock.now(), timeZone);

  async function assess(
    jobStepIds: readonly string[],
    person: PersonFacts | null,
  ): Promise<Assessment[]> {
    const all = await read.facts(jobStepIds);
    const asking = person && { person, certificates: await read.certificates() };
    const at = { now: clock.now(), today: today(), asking, policy: await policy.table() };
    return all.map((facts) => ({ facts, readiness: readinessOf(facts, at) }));
  }

  return {
    assess,
    /** The first step of a queue that may start now, and why each one before it may not. */
    async firstReady(steps: readonly StepRecord[], person: PersonFacts | null): Promise<NextStep> {
      const passedOver: CellView['passedOver'] = [];
      for (let from = 0; from < steps.length; from += readAtOnce) {
        const some = steps.slice(from, from + readAtOnce);
        const waiting = some.filter(({ state }) => state === 'waiting').map(({ id }) => id);
        const judged = new Map((await assess(waiting, person)).map((a) => [a.facts.record.id, a]));
        for (const step of some) {
          if (step.state === 'held') continue;
          const found = judged.get(step.id);
          if (found?.readiness.ready === true) return { next: found, passedOver };
          passedOver.push(passedWords(step, found));
        }
      }
      return { next: null, passedOver };
    },
    async cardFor({ facts, readiness }: Assessment): Promise<SetUpCard> {
      const readings = await read.readings({ revisionId: facts.revisionId, stepId: facts.stepId });
      return cardOf(facts, readiness, { today: today(), readings });
    },
  };
}

function passedWords(step: StepRecord, found: Assessment | undefined) {
  const { id, jobNumber, partNumber } = step;
  const text = found === undefined ? 'The step before it is not done yet.' : obstacleWords(found);
  return { jobStepId: id, jobNumber, partNumber, text };
}

/** Everything that stops a step, in words. */
export function obstacleWords({ readiness }: Assessment): string {
  return readiness.lines
    .filter(stops)
    .map(({ text }) => text)
    .join(' ');
}
