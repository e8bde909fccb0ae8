import { batchWire } from '@tackboard/calc';
import type { BodyOf, Run, runs } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal } from '../refusal.js';
import { refuseUnchecked } from './first-piece-gate.js';
import { mustHold } from './holder.js';
import { refuseDoubtful } from './may-count.js';
import { momentOf } from './moments.js';
import type { RunRecord } from './store.js';
import { refuseUnstarted } from './start-gate.js';
import { runsWriter, type CountedParts } from './write-store.js';

type CountInput = BodyOf<typeof runs.count>;
type Writer = ReturnType<typeof runsWriter>;

/** Counts parts made; the arc time and the wire on the feeder follow from the weld list and the set-up. */
export function createCount({ uow, newId, timeZone }: Foundation) {
  return async function count(actor: Actor, runId: string, input: CountInput): Promise<Run> {
    return uow.write(actor, async (unit) => {
      const store = runsWriter(unit.tx);
      const run = await store.run(runId);
      if (run === null) throw notFound('run', runId, 'params.runId');
      const person = mustHold(actor, run, timeZone);
      refuseUnstarted(run);
      refuseUnchecked(run, input);
      confirmBeyond(run, input);
      const { good, rework, scrap } = input;
      const { at: happenedAt, clockAheadS } = momentOf({
        happenedAt: input.happenedAt,
        now: unit.now,
        notBefore: run.startedAt,
      });
      const parts = good + rework + scrap;
      if (good > 0) await refuseDoubtful(unit, run, { happenedAt, personId: person.id });
      await store.addCount(
        ...([
          {
            ...{ id: newId(), runId, at: unit.now, happenedAt, personId: person.id },
            ...{ good, rework, scrap },
          },
          { jobStepId: run.view.jobStepId, arcS: parts * run.arcSPerPart },
        ] as const),
      );
      await takeWire(store, run, parts);
      const counted = after(run, { good, rework, scrap });
      unit.append({
        type: 'run.counted',
        subjectType: 'run',
        subjectId: runId,
        version: counted.version,
        cellId: run.view.cellId,
        before: totals(run.view),
        after: {
          ...totals(counted),
          counted: { good, rework, scrap },
          happenedAt: happenedAt.toISOString(),
          saidAt: input.happenedAt,
          clockAheadS,
        },
      });
      return counted;
    });
  };
}

function totals({ goodCount, reworkCount, scrapCount }: Run) {
  return { goodCount, reworkCount, scrapCount };
}

function after({ view, arcSPerPart }: RunRecord, { good, rework, scrap }: CountedParts): Run {
  return {
    ...view,
    version: view.version + 1,
    stepGoodCount: view.stepGoodCount + good,
    goodCount: view.goodCount + good,
    reworkCount: view.reworkCount + rework,
    scrapCount: view.scrapCount + scrap,
    arcS: view.arcS + (good + rework + scrap) * arcSPerPart,
  };
}

function confirmBeyond({ view }: RunRecord, { good, beyondBatchConfirmed }: CountInput): void {
  const counted = view.stepGoodCount + good;
  if (good === 0 || counted <= view.quantity || beyondBatchConfirmed) return;
  throw new Refusal(
    'NEEDS_CONFIRMATION',
    `${counted} good parts would be more than the batch of ${view.quantity}: ${view.stepGoodCount} are counted already. Were there really ${good} more?`,
    {
      fields: [
        {
          field: 'body.good',
          given: String(good),
          allowed: `${Math.max(0, view.quantity - view.stepGoodCount)} or fewer, or more after confirming`,
        },
      ],
      current: view,
    },
  );
}

async function takeWire(store: Writer, run: RunRecord, quantity: number): Promise<void> {
  if (run.arcSPerPart <= 0) return;
  const settings = await store.wireSettings(run.stepId, run.view.cellId);
  if (settings === null) return;
  const { wireSpeedMMin, wireDiameterMm } = settings;
  if (wireSpeedMMin === null || wireDiameterMm === null) return;
  const wire = batchWire({ wireSpeedMMin, wireDiameterMm, arcS: run.arcSPerPart, quantity });
  if (wire.ok) await store.useWire(run.view.cellId, wire.value);
}
