import type { SetUp, SetUpMemory } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import { shopDay } from '../clock.js';
import { dayWords } from '../orders/day-words.js';
import type { StepFacts } from '../queue/facts.js';
import { loadedOf } from '../queue/figures.js';
import type { QueueService } from '../queue/service.js';
import { notFound } from '../refusal.js';
import { memoryReader, toChange } from './memory-store.js';

interface DifferenceFacts {
  readonly setUp: SetUp | null;
  readonly cellCode: string;
  readonly keptElsewhere: readonly string[];
  readonly lastGood: SetUpMemory['lastGood'];
  /** The day of the last good run on the calendar of the shop. */
  readonly lastGoodOn: string | null;
  readonly programReadAtClose: boolean;
  readonly wpsLabel: string | null;
  readonly programOnFile: string | null;
  readonly wireLoaded: string | null;
  readonly gasLoaded: string | null;
}

/** What is not as it was when the last good run of this step was kept, in words. */
export function differences(facts: DifferenceFacts): string[] {
  const { setUp, lastGood, lastGoodOn } = facts;
  if (setUp === null) {
    const where = facts.keptElsewhere.join(', ');
    return where === ''
      ? ['No run of this step has been kept yet.']
      : [`Nothing is kept for ${facts.cellCode}; the set-up of ${where} is on file.`];
  }
  const words: string[] = [];
  if (lastGood === null || lastGoodOn === null) {
    words.push(`Written by ${setUp.frozenBy}; no run has proved this set-up yet.`);
  } else {
    if (lastGood.wpsLabel !== facts.wpsLabel) {
      const then = lastGood.wpsLabel ?? 'no procedure';
      words.push(
        `Last made under ${then} on ${dayWords(lastGoodOn)}, now ${facts.wpsLabel ?? 'no procedure'}.`,
      );
    }
    if (setUp.programName !== null && !facts.programReadAtClose) {
      words.push('At the last close nobody read the program revision at the robot: read it now.');
    }
  }
  return [...words, ...toolingWords(facts, setUp)];
}

function toolingWords(facts: DifferenceFacts, setUp: SetUp): string[] {
  const { programName, programRevision, fixtureCode, fixtureCondition } = setUp;
  const { programOnFile, wireLoaded, gasLoaded } = facts;
  const words: string[] = [];
  if (programName !== null && programRevision !== null && programRevision !== programOnFile) {
    words.push(
      `The last good run had ${programName} revision ${programRevision}, on file is ${programOnFile ?? 'none'}.`,
    );
  }
  if (fixtureCode !== null && fixtureCondition !== 'good') {
    const state = fixtureCondition === 'missing' ? 'missing' : 'in repair';
    words.push(`Fixture ${fixtureCode} was put away as ${state}.`);
  }
  const loads = [
    [setUp.wireName, wireLoaded],
    [setUp.gasName, gasLoaded],
  ] as const;
  for (const [asked, loaded] of loads) {
    if (asked !== null && loaded !== asked) {
      words.push(`It was made with ${asked}; loaded is ${loaded ?? 'nothing'}.`);
    }
  }
  return words;
}

/** What the cell shows before it sets up: the last good run, its changes, and what is different now. */
export function createMemory(
  { database, timeZone }: Foundation,
  queue: Pick<QueueService, 'assess'>,
) {
  const read = memoryReader(database.reader);

  async function lastGoodOf(setUp: SetUp | null) {
    const runId = setUp?.frozenFromRunId ?? null;
    const run = runId === null ? null : await read.frozenFrom(runId);
    if (setUp === null || run === null || runId === null) return null;
    const { number: jobNumber, quantity } = run.jobStep.job;
    const { frozenAt, frozenBy } = setUp;
    const wpsLabel = await read.wpsLabelOf(runId);
    return {
      jobStepId: run.jobStepId,
      view: { jobNumber, quantity, frozenAt, frozenBy, wpsLabel },
    };
  }

  return {
    async memory(jobStepId: string): Promise<SetUpMemory> {
      const [found] = await queue.assess([jobStepId], null);
      if (found === undefined) throw notFound('queued step', jobStepId, 'params.jobStepId');
      const { facts } = found;
      const last = await lastGoodOf(facts.setUp);
      const then = last === null ? null : await read.closing(last.jobStepId);
      const now = await read.closing(jobStepId);
      return {
        lastGood: last?.view ?? null,
        changedThen: last === null ? [] : (await read.changes(last.jobStepId)).map(toChange),
        differs: differences({
          ...sinceThen(facts),
          keptElsewhere: await read.keptElsewhere(facts.stepId, facts.cell.id),
          lastGood: last?.view ?? null,
          lastGoodOn: last && shopDay(new Date(last.view.frozenAt), timeZone),
          programReadAtClose: (then?.programAtClose ?? null) !== null,
        }),
        changed: (await read.changes(jobStepId)).map(toChange),
        programAtStart: now.programAtStart,
        programAtClose: now.programAtClose,
        closedOut: now.closedOutAt !== null,
      };
    },
  };
}

function sinceThen(facts: StepFacts) {
  const { setUp, cell, wps, programOnFile } = facts;
  return {
    ...{ setUp, cellCode: cell.code, programOnFile },
    wpsLabel: wps === null ? null : `${wps.number} r${wps.revision}`,
    wireLoaded: loadedOf(facts, 'wire')?.itemName ?? null,
    gasLoaded: loadedOf(facts, 'gas')?.itemName ?? null,
  };
}
