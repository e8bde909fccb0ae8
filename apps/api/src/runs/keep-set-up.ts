import type { Unit } from '../db/unit-of-work.js';
import type { PartsService } from '../parts/service.js';
import { firstSetUp, frozenFrom } from './frozen-set-up.js';
import { memoryReader } from './memory-store.js';
import type { RunRecord } from './store.js';

export type SetUpKeeper = Pick<PartsService, 'keptSetUp' | 'freezeFromRun'>;

/** Freezes the set-up of a good run for the next return, in the commit that closes the batch. */
export async function keepSetUp(
  unit: Unit,
  parts: SetUpKeeper,
  { run, personId }: { run: RunRecord; personId: string },
): Promise<void> {
  const { cellId, jobStepId, quantity, stepGoodCount: good } = run.view;
  const store = memoryReader(unit.tx);
  const kept = await parts.keptSetUp(run.stepId, cellId, unit.tx);
  const bench = { stepId: run.stepId, ...(await store.benchAt(cellId)) };
  const setUp = kept ?? firstSetUp(bench, run.view.readings);
  const changes = await store.changes(jobStepId);
  const closing = await store.closing(jobStepId);
  const frozen = frozenFrom({ setUp, changes, closing, good, quantity });
  if (frozen === null) return;
  await parts.freezeFromRun(unit, { setUp: frozen, runId: run.view.id, frozenBy: personId });
}
