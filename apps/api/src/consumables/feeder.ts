import { spoolForecast } from '@tackboard/calc';
import type { Feeder } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import type { Assessment } from '../queue/assess.js';
import { numberWords } from '../queue/fit-words.js';
import type { QueueService } from '../queue/service.js';
import { notFound } from '../refusal.js';
import { consumablesReader, type LotLoadView } from './store.js';

/** So many steps ahead a spool change is foretold. */
const stepsAhead = 8;

interface Draw {
  readonly jobNumber: number;
  readonly quantity: number;
  readonly perPartG: number;
}

/** What hangs at a cell, and how far its wire reaches through the work that waits there. */
export function feederService(
  { database }: Foundation,
  queue: Pick<QueueService, 'lane' | 'assess'>,
) {
  return {
    async feeder(cellId: string): Promise<Feeder> {
      const lane = await queue.lane(cellId);
      if (lane === null) throw notFound('cell', cellId, 'params.cellId');
      const loads = await consumablesReader(database.reader).loads({ cellId });
      const ahead = lane.steps.slice(0, stepsAhead).map(({ id }) => id);
      const spool = loads.find(({ kind, unit }) => kind === 'wire' && unit === 'kg');
      const draws = spool === undefined ? [] : drawsOf(await queue.assess(ahead, null), spool);
      const wire = spool === undefined ? null : forecast(spool, draws);
      return { loads, wire, words: [...reachWords(wire, spool, draws), ...paperWords(loads)] };
    },
  };
}

/** The work that draws on this spool, up to the first job that wants another wire or whose need is not known. */
function drawsOf(steps: readonly Assessment[], { itemId }: LotLoadView): Draw[] {
  const draws: Draw[] = [];
  for (const { facts, readiness } of steps) {
    const quantity = Math.max(0, facts.record.quantity - facts.record.goodCount);
    const { wireKgBatch } = readiness.figures;
    if (facts.setUp?.wireItemId !== itemId || wireKgBatch === null) break;
    if (quantity === 0) continue;
    const perPartG = (wireKgBatch * 1000) / quantity;
    draws.push({ jobNumber: facts.record.jobNumber, quantity, perPartG });
  }
  return draws;
}

function forecast({ leftAmount }: LotLoadView, draws: readonly Draw[]): Feeder['wire'] {
  if (draws.length === 0) return null;
  const reach = spoolForecast({ onFeederKg: leftAmount, batches: draws });
  if (!reach.ok) return null;
  const { goodFor, changeAt } = reach.parts;
  const jobNumber = changeAt === null ? undefined : draws[changeAt.batch]?.jobNumber;
  return {
    leftKg: leftAmount,
    neededKg: reach.value,
    goodFor,
    changeAt:
      changeAt === null || jobNumber === undefined
        ? null
        : { jobNumber, part: changeAt.part, fromNow: goodFor + 1 },
  };
}

function reachWords(
  wire: Feeder['wire'],
  spool: LotLoadView | undefined,
  draws: readonly Draw[],
): string[] {
  const [first] = draws;
  if (wire === null || spool === undefined || first === undefined) return [];
  const possible = Math.floor((wire.leftKg * 1000) / first.perPartG + 1e-9);
  const left = `${numberWords(wire.leftKg)} kg of ${spool.itemName} (lot ${spool.lotNumber})`;
  const now = `${left}: good for ${possible} parts, job ${first.jobNumber} needs ${first.quantity}.`;
  if (wire.changeAt === null) {
    return [now, `It reaches through all ${draws.length} jobs known here.`];
  }
  const { jobNumber, part, fromNow } = wire.changeAt;
  const where =
    jobNumber === first.jobNumber ? `part ${part} of this job` : `part ${part} of job ${jobNumber}`;
  return [
    now,
    `Spool change at ${where}, the ${ordinal(fromNow)} part from now: ${numberWords(wire.neededKg)} kg are needed for ${draws.length === 1 ? 'the job' : `${draws.length} jobs`}.`,
  ];
}

function ordinal(count: number): string {
  const teen = count % 100 >= 11 && count % 100 <= 13;
  const ending = teen
    ? 'th'
    : (({ 1: 'st', 2: 'nd', 3: 'rd' } as Record<number, string>)[count % 10] ?? 'th');
  return `${count}${ending}`;
}

function paperWords(loads: readonly LotLoadView[]): string[] {
  return loads
    .filter(({ kind, certificate }) => kind !== 'gas' && (certificate ?? '').trim() === '')
    .map(
      ({ lotNumber, itemName }) => `Lot ${lotNumber} of ${itemName} has no certificate on file.`,
    );
}
