import type { LotUse } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import { notFound } from '../refusal.js';
import { numbered, partsOf } from './lots-used.js';
import { consumablesReader } from './store.js';
import { useReader, type LoadRow, type RunRow } from './use-store.js';

/** Which lots a job was welded with, and which jobs a lot went into: both follow from what hung where and when. */
export function useService({ database }: Foundation) {
  const store = useReader(database.reader);

  async function usesOf(loads: readonly LoadRow[], runs: readonly RunRow[]): Promise<LotUse[]> {
    const stepIds = [...new Set(runs.map(({ jobStepId }) => jobStepId))];
    const counts = await store.counts(stepIds);
    const steps = await store.steps(stepIds);
    return steps.flatMap(({ jobStepId, ...step }) => {
      const of = {
        runs: runs.filter((run) => run.jobStepId === jobStepId),
        counts: numbered(counts.filter((count) => count.jobStepId === jobStepId)),
      };
      return loads.flatMap((load) => {
        const parts = partsOf(load, of);
        return parts === undefined ? [] : [{ ...step, ...lotOf(load), ...partNumbers(parts) }];
      });
    });
  }

  return {
    async lotsOfJob(jobId: string): Promise<{ lots: LotUse[] }> {
      if (!(await store.jobExists(jobId))) throw notFound('job', jobId, 'params.jobId');
      const runs = await store.runsOfJob(jobId);
      const [first] = runs;
      if (first === undefined) return { lots: [] };
      const cellIds = [...new Set(runs.map(({ cellId }) => cellId))];
      return { lots: await usesOf(await store.loadsAt(cellIds, first.startedAt), runs) };
    },

    async jobsOfLot(lotId: string): Promise<{ jobs: LotUse[] }> {
      const lot = await consumablesReader(database.reader).lot(lotId);
      if (lot === null) throw notFound('lot', lotId, 'params.lotId');
      const loads = await store.loadsOfLot(lotId);
      const runs: RunRow[] = [];
      for (const load of loads) runs.push(...(await store.runsDuring(load)));
      const once = new Map(runs.map((run) => [`${run.jobStepId} ${run.startedAt.getTime()}`, run]));
      return { jobs: await usesOf(loads, [...once.values()]) };
    },
  };
}

function lotOf({ cellId: _cell, loadedAt, unloadedAt, ...lot }: LoadRow) {
  return { ...lot, from: loadedAt.toISOString(), to: unloadedAt?.toISOString() ?? null };
}

function partNumbers(parts: { readonly fromPart: number; readonly toPart: number } | null) {
  return { fromPart: parts?.fromPart ?? null, toPart: parts?.toPart ?? null };
}
