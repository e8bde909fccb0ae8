import { WpsRanges, type BodyOf, type ReplyOf, type setUpMemory } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import type { PartsService } from '../parts/service.js';
import { notFound } from '../refusal.js';
import { mustHold } from './holder.js';
import { memoryWriter, toChange, type NewChange } from './memory-store.js';
import { judgeSettings, settingsAfter } from './settings.js';
import { runsReader, type RunRecord } from './store.js';

type Changed = ReplyOf<typeof setUpMemory.change>;
type ChangeInput = BodyOf<typeof setUpMemory.change>;

/** Keeps what was dialled anew during a run, from, to and why, and answers it against the procedure. */
export function createSettingChange(
  { uow, newId, timeZone }: Foundation,
  parts: Pick<PartsService, 'keptSetUp'>,
) {
  return async function change(actor: Actor, runId: string, input: ChangeInput): Promise<Changed> {
    return uow.write(actor, async (unit) => {
      const run = await runsReader(unit.tx).run(runId);
      if (run === null) throw notFound('run', runId, 'params.runId');
      const person = mustHold(actor, run, timeZone);
      const store = memoryWriter(unit.tx);
      const { variable, why } = input;
      const to = String(input.to);
      const kept = await parts.keptSetUp(run.stepId, run.view.cellId, unit.tx);
      const changes = await store.changes(run.view.jobStepId);
      const from = settingsAfter(kept, changes)[variable];
      const settings = settingsAfter(kept, [...changes, { variable, to }]);
      const answer = judgeSettings({
        settings,
        changed: variable,
        kept,
        ...(await against(unit, run)),
      });
      const row: NewChange = {
        ...{ id: newId(), runId, jobStepId: run.view.jobStepId, at: unit.now, variable, to, why },
        ...{ from: from === null ? null : String(from), result: answer.result },
        ...{ afterPart: run.view.stepGoodCount, personId: person.id },
      };
      await addChange(unit, run, row);
      const { lines, words } = answer;
      return { change: toChange({ ...row, personCode: person.code }), lines, words };
    });
  };
}

/** Writes a change and its event in one commit. */
export async function addChange(unit: Unit, run: RunRecord, row: NewChange): Promise<void> {
  await memoryWriter(unit.tx).addChange(row);
  const { variable, from, to, result, afterPart } = row;
  unit.append({
    type: 'run.changed',
    ...{ subjectType: 'run', subjectId: row.runId, cellId: run.view.cellId },
    version: run.view.version + 1,
    before: { [variable]: from },
    after: { [variable]: to, result, afterPart },
    reason: row.why,
  });
}

async function against(unit: Unit, run: RunRecord) {
  const store = runsReader(unit.tx);
  const [weld] = await store.welds(run.revisionId, run.stepNumber);
  const ranges = run.wpsId === null ? null : await store.wpsRanges(run.wpsId);
  const wps =
    ranges === null ? null : { label: run.view.wpsLabel ?? '', ranges: WpsRanges.parse(ranges) };
  return { process: weld?.process ?? null, wps };
}
