import type { Unit } from '../db/unit-of-work.js';
import { Refusal } from '../refusal.js';
import { memoryReader } from './memory-store.js';
import { outsideSince } from './settings.js';
import type { RunRecord } from './store.js';
import { openSince } from './tool-point.js';
import { toolPointReader } from './tool-point-store.js';

/**
 * Good parts count only while the robot's tool point is known to be true and the settings are inside the procedure,
 * or signed for. Parts that were made before the knock or the change are let through: they were counted later only.
 */
export async function refuseDoubtful(
  unit: Unit,
  run: RunRecord,
  at: { happenedAt: Date; personId: string },
): Promise<void> {
  const { view } = run;
  const knocked = openSince(await toolPointReader(unit.tx).entries(view.cellId));
  if (knocked !== null && at.happenedAt >= knocked) {
    throw new Refusal(
      'DOES_NOT_FIT',
      `The tool point of ${view.cellCode} was knocked, and no check since was good. Check it first; then count this part, or count it as rework or scrap.`,
      { current: view },
    );
  }
  const store = memoryReader(unit.tx);
  const outside = outsideSince(await store.changes(view.jobStepId));
  if (outside === null || at.happenedAt < outside) return;
  const { personId } = at;
  const of = { jobStepId: view.jobStepId, jobId: run.jobId, personId, now: unit.now };
  if (await store.settingsSigned(of)) return;
  throw new Refusal(
    'DOES_NOT_FIT',
    `The settings of job ${view.jobNumber} are outside ${view.wpsLabel ?? 'the procedure'} since the last change. Set them back inside, let the coordinator sign for them, or count the part as rework or scrap.`,
    { current: view },
  );
}
