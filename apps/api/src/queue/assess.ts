import type { CellView, ReadyLine, SetUpCard } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import { shopDay } from '../clock.js';
import type { PolicyService } from '../policy/service.js';
import { cardOf } from './card.js';
import type { LoadFacts, PersonFacts, StepFacts } from './facts.js';
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

  async function dayOf(person: PersonFacts | null) {
    const asking = person && { person, certificates: await read.certificates() };
    return { now: clock.now(), today: today(), asking, policy: await policy.table() };
  }

  async function assess(
    jobStepIds: readonly string[],
    person: PersonFacts | null,
  ): Promise<Assessment[]> {
    const all = await read.facts(jobStepIds);
    const at = await dayOf(person);
    return all.map((facts) => ({ facts, readiness: readinessOf(facts, at) }));
  }

  return {
    assess,
    /** What the certificates of everybody in the shop say. */
    certificateFacts: async () => read.certificates(),
    /** The line of a step that another load of wire or gas would stop; null where it would do. */
    async stoppedBy(jobStepId: string, load: LoadFacts): Promise<ReadyLine | null> {
      const [facts] = await read.facts([jobStepId]);
      if (facts === undefined) return null;
      const others = facts.loads.filter(({ kind }) => kind !== load.kind);
      const at = await dayOf(null);
      const { lines } = readinessOf({ ...facts, loads: [load, ...others] }, at);
      const rules = [`${load.kind}Loaded`, `${load.kind}Certificate`];
      return lines.find((line) => rules.includes(line.rule) && stops(line)) ?? null;
    },
    /** The first step of a queue that may start now, and why each one before it may not. */
    async firstReady(steps: readonly StepRecord[], person: PersonFacts | null): Promise<NextStep> {
      const passedOver: CellView['passedOver'] = [];
      const at = await dayOf(person);
      for (let from = 0; from < steps.length; from += readAtOnce) {
        const some = steps.slice(from, from + readAtOnce);
        const waiting = some.filter(({ state }) => state === 'waiting').map(({ id }) => id);
        const byId = new Map((await read.facts(waiting)).map((each) => [each.record.id, each]));
        for (const step of some) {
          if (step.state === 'held') continue;
          const facts = byId.get(step.id);
          // Judged one by one: what stands behind the first ready step is nobody's question here.
          const found = facts && { facts, readiness: readinessOf(facts, at) };
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
