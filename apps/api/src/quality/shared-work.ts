/** A run that shares what is looked for, apart from the lot. */
export interface RunToTrace {
  readonly id: string;
  readonly jobStepId: string;
  readonly cellId: string;
  readonly personCode: string;
  readonly startedAt: Date;
  readonly endedAt: Date | null;
  /** Shares person, procedure, program and cell; runs that do not are here for their place in the step. */
  readonly shares: boolean;
}

/** Parts counted in one act: good, to rework and scrap together. */
export interface CountToTrace {
  readonly runId: string;
  readonly happenedAt: Date;
  readonly parts: number;
}

interface Span {
  readonly from: Date;
  /** Not included. */
  readonly to: Date;
}

export interface LoadToTrace {
  readonly cellId: string;
  readonly loadedAt: Date;
  readonly unloadedAt: Date | null;
}

export interface SharedStep {
  readonly jobStepId: string;
  readonly cellIds: readonly string[];
  readonly personCodes: readonly string[];
  readonly first: Date;
  readonly last: Date;
  readonly parts: number;
  readonly fromPart: number;
  readonly toPart: number;
}

/**
 * What of each step was made while everything shared held. A count says when parts were finished: they were made
 * since the count before it, so a lot that hung at any moment between the two is taken to be in them. It is better
 * to look at a part too many than at one too few.
 */
export function sharedWork(facts: {
  readonly runs: readonly RunToTrace[];
  /** All counts of the steps of these runs. */
  readonly counts: readonly CountToTrace[];
  /** When the lot was loaded where; null where no lot is asked about. */
  readonly loads: readonly LoadToTrace[] | null;
  readonly span: Span;
  readonly now: Date;
}): SharedStep[] {
  const pieces = stretchesOf(facts).filter((piece) => holds(piece, facts.loads, facts.span));
  const steps = new Map<string, Stretch[]>();
  for (const piece of pieces) {
    const { jobStepId } = piece.run;
    steps.set(jobStepId, [...(steps.get(jobStepId) ?? []), piece]);
  }
  return [...steps].map(([jobStepId, of]) => {
    const times = of.flatMap(({ from, to }) => [from.getTime(), to.getTime()]);
    return {
      jobStepId,
      cellIds: [...new Set(of.map(({ run }) => run.cellId))],
      personCodes: [...new Set(of.map(({ run }) => run.personCode))].sort(),
      first: new Date(Math.max(Math.min(...times), facts.span.from.getTime())),
      last: new Date(Math.min(Math.max(...times), facts.span.to.getTime() - 1)),
      parts: of.reduce((sum, { parts }) => sum + parts, 0),
      fromPart: Math.min(...of.map(({ fromPart }) => fromPart)),
      toPart: Math.max(...of.map(({ fromPart, parts }) => fromPart + parts - 1)),
    };
  });
}

/** The time between two counts of a run, with the parts that were made in it. */
interface Stretch {
  readonly run: RunToTrace;
  readonly from: Date;
  readonly to: Date;
  readonly parts: number;
  /** The place of the first of them among the parts of the step, from 1. */
  readonly fromPart: number;
}

function stretchesOf(facts: Parameters<typeof sharedWork>[0]): Stretch[] {
  const runs = new Map(facts.runs.map((run) => [run.id, run]));
  const made = new Map<string, number>();
  const since = new Map<string, Date>();
  const stretches: Stretch[] = [];
  const counts = facts.counts.toSorted((a, b) => a.happenedAt.getTime() - b.happenedAt.getTime());
  for (const { runId, happenedAt: to, parts } of counts) {
    const run = runs.get(runId);
    if (run === undefined) continue;
    const before = made.get(run.jobStepId) ?? 0;
    const from = since.get(runId) ?? run.startedAt;
    stretches.push({ run, from, to, parts, fromPart: before + 1 });
    made.set(run.jobStepId, before + parts);
    since.set(runId, to);
  }
  // What is in hand and not counted yet.
  for (const run of facts.runs.filter(({ endedAt }) => endedAt === null)) {
    const from = since.get(run.id) ?? run.startedAt;
    const fromPart = (made.get(run.jobStepId) ?? 0) + 1;
    stretches.push({ run, from, to: facts.now, parts: 0, fromPart });
  }
  return stretches.filter(({ run }) => run.shares);
}

function holds({ run, from, to }: Stretch, loads: readonly LoadToTrace[] | null, span: Span) {
  if (to < span.from || from >= span.to) return false;
  if (loads === null) return true;
  return loads.some(
    ({ cellId, loadedAt, unloadedAt }) =>
      cellId === run.cellId && loadedAt < to && (unloadedAt === null || unloadedAt > from),
  );
}
