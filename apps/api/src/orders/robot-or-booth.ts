import { breakEven, expectedBatches, robotOrBooth } from '@tackboard/calc';
import type { RobotOrBooth } from '@tackboard/contract';
import { median } from './line-questions.js';
import type { PartReturns } from './promise-store.js';

/** Below three parts a share says nothing. */
const fewestParts = 3;
const monthsLookedAhead = 12;
/** So many batches are tried for the one from which the robot pays. */
const mostBatches = 50;

export interface WayTimes {
  readonly fixedMin: number;
  readonly unitMin: number;
}

interface WayFacts {
  readonly quantity: number;
  readonly robot: WayTimes | null;
  readonly booth: WayTimes | null;
  /** 0 where the program is proven; null where nobody has said what it takes. */
  readonly programmingMin: number | null;
  readonly returns: readonly PartReturns[];
  readonly now: Date;
}

/**
 * Both totals of a batch in minutes of a person, programming spread over the batches that are expected. The shop
 * keeps no rates by cell, so an hour counts the same at both.
 */
export function compareWays(facts: WayFacts): RobotOrBooth {
  const { quantity, robot, booth, programmingMin } = facts;
  const chance = chanceOfReturn(facts.returns, facts.now);
  const spread = chance === null ? null : expectedBatches(chance);
  const batches = spread?.ok ? spread.value : 1;
  const common = { chanceOfReturn: chance?.chanceOfReturn ?? null, expectedBatches: batches };
  const lacks = [
    ...(robot === null ? ['the time at a robot'] : []),
    ...(booth === null ? ['the time at a booth'] : []),
    ...(programmingMin === null ? ['the minutes to program it'] : []),
  ];
  if (robot === null || booth === null || programmingMin === null) {
    return {
      ...common,
      ...unsaid,
      asksProgramming: robot !== null && booth !== null,
      text: `Robot or booth cannot be said: ${lacks.join(' and ')} is missing.`,
    };
  }
  const times = timesOf(robot, booth, programmingMin);
  const compared = robotOrBooth({
    ...{ ...times, quantity, fixtureCost: 0, expectedBatches: batches },
    ...{ robotRatePerH: 60, boothRatePerH: 60, programmingRatePerH: 60, currency: 'min' },
  });
  if (!compared.ok) {
    return {
      ...common,
      ...unsaid,
      text: 'Robot or booth cannot be said: a time on file is 0 or too large.',
    };
  }
  const { robotCost, boothCost, cheaper, breakEvenParts } = compared.parts;
  const answer = {
    ...common,
    ...{ robotMin: robotCost, boothMin: boothCost, better: cheaper, breakEvenParts },
    asksProgramming: false,
  };
  return { ...answer, text: wordsOf(answer, { times, quantity }) };
}

const unsaid = {
  ...{ robotMin: null, boothMin: null, breakEvenParts: null },
  better: 'cannotSay',
  asksProgramming: false,
} as const;

type Times = ReturnType<typeof timesOf>;

function timesOf(robot: WayTimes, booth: WayTimes, programmingMin: number) {
  return {
    ...{ robotFixedMin: robot.fixedMin, robotUnitMin: robot.unitMin, programmingMin },
    ...{ boothFixedMin: booth.fixedMin, boothUnitMin: booth.unitMin },
  };
}

function wordsOf(
  answer: Omit<RobotOrBooth, 'text'>,
  { times, quantity }: { times: Times; quantity: number },
): string {
  const { robotMin, boothMin, breakEvenParts, better } = answer;
  const totals = `Robot ${minutes(robotMin)}, booth ${minutes(boothMin)} for ${quantity} parts`;
  const best = better === 'same' ? 'both alike' : `the ${better} takes less`;
  const even =
    breakEvenParts === null
      ? 'no quantity pays for the robot'
      : `the robot pays from ${breakEvenParts} parts`;
  const from = better === 'booth' ? batchesFor(times, quantity) : null;
  const later = from === null ? '' : `, or from ${from} batches of ${quantity}`;
  return `${totals}: ${best}; ${even}${later}. ${chanceWords(answer)}`;
}

function minutes(min: number | null): string {
  return `${(min ?? 0).toFixed(1)} min`;
}

/** The number of batches in all from which the robot takes no longer at this quantity. */
function batchesFor(times: Times, quantity: number): number | null {
  for (let batches = 2; batches <= mostBatches; batches += 1) {
    const even = breakEven({ ...times, expectedBatches: batches });
    if (even.ok && even.value <= quantity) return batches;
  }
  return null;
}

function chanceWords({
  chanceOfReturn: chance,
  expectedBatches: batches,
}: Omit<RobotOrBooth, 'text'>) {
  return chance === null
    ? 'Whether it comes back cannot be said: counted as one batch.'
    : `${Math.round(chance * 100)} % of parts with the same expectation came back within a year: counted as ${batches.toFixed(1)} batches.`;
}

/**
 * The share of parts that were ordered again within twelve months of their first batch, and how often those were.
 * Parts whose twelve months are not over are left out; null below three parts.
 */
function chanceOfReturn(
  parts: readonly PartReturns[],
  now: Date,
): { chanceOfReturn: number; usualRepeats: number } | null {
  const repeats = parts.flatMap(({ finishedAt, createdAt }) => {
    const [first] = finishedAt.toSorted((a, b) => a.getTime() - b.getTime());
    if (first === undefined) return [];
    const until = new Date(first);
    until.setUTCMonth(until.getUTCMonth() + monthsLookedAhead);
    if (until > now) return [];
    return [createdAt.filter((at) => at > first && at <= until).length];
  });
  if (repeats.length < fewestParts) return null;
  const returned = repeats.filter((count) => count > 0);
  return {
    chanceOfReturn: returned.length / repeats.length,
    usualRepeats: median(returned) ?? 0,
  };
}
