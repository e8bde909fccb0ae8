import type { BodyOf, quality, ReadyLine, ReplyOf } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import type { FilesService } from '../files/service.js';
import type { QueueService } from '../queue/service.js';
import { notFound, Refusal, refuseField } from '../refusal.js';
import { containmentService } from './containment-service.js';
import { firstPieceService } from './first-piece-service.js';
import { ncrService } from './ncr-service.js';
import { pointsService } from './points-service.js';
import { qualityReader, qualityWriter, type OverrideRecord, type StepToPass } from './store.js';

type OverrideInput = BodyOf<(typeof quality)['addOverride']>;
type Override = ReplyOf<(typeof quality)['addOverride']>;
type Store = ReturnType<typeof qualityReader>;

const msPerDay = 86_400_000;

export type QualityService = ReturnType<typeof createQualityService>;

export function createQualityService(
  foundation: Foundation,
  others: {
    readonly files: Pick<FilesService, 'useIn'>;
    readonly queue: Pick<QueueService, 'assess'>;
  },
) {
  return {
    ...overrideService(foundation, others),
    ...firstPieceService(foundation, others.files),
    ...ncrService(foundation, others.files),
    ...containmentService(foundation),
    ...pointsService(foundation),
  };
}

function overrideService(
  { database, uow, newId }: Foundation,
  { queue }: { readonly queue: Pick<QueueService, 'assess'> },
) {
  return {
    async overrides({ jobId }: { jobId?: string | undefined }): Promise<{ overrides: Override[] }> {
      const store = qualityReader(database.reader);
      return { overrides: await viewsOf(store, await store.overrides(jobId)) };
    },

    /** The coordinator lets one person pass one gated rule at one step, for some days, with a reason. */
    async addOverride(actor: Actor, jobStepId: string, input: OverrideInput): Promise<Override> {
      return uow.write(actor, async (unit) => {
        const store = qualityWriter(unit.tx);
        const signer = actingPerson(actor);
        const step = await openStep(store, jobStepId);
        const person = await passingPerson(store, input.forPersonId, signer.id);
        const [assessment] = await queue.assess([jobStepId], person);
        refuseRule(input.rule, assessment?.readiness.lines ?? []);
        const row = {
          ...{ id: newId(), jobId: step.jobId, jobStepId, rule: input.rule, reason: input.reason },
          ...{ signedById: signer.id, forPersonId: input.forPersonId, signedAt: unit.now },
          expiresAt: new Date(unit.now.getTime() + input.days * msPerDay),
        };
        await store.addOverride(row);
        unit.append({
          type: 'override.signed',
          subjectType: 'override',
          subjectId: row.id,
          cellId: step.cellId,
          after: { jobNumber: step.jobNumber, stepNumber: step.number, ...input },
          reason: input.reason,
          meaning: 'waived',
        });
        const [view] = await viewsOf(store, [{ ...row, jobNumber: step.jobNumber }]);
        if (view === undefined) throw new Error(`Override ${row.id} was written but is not there.`);
        return view;
      });
    },
  };
}

async function viewsOf(store: Store, rows: readonly OverrideRecord[]): Promise<Override[]> {
  const names = await store.names(
    rows.flatMap(({ signedById, forPersonId }) => [
      signedById,
      ...(forPersonId ? [forPersonId] : []),
    ]),
  );
  return rows.map(({ signedById, forPersonId, ...row }) => ({
    ...row,
    signedBy: names.get(signedById) ?? signedById,
    forPerson: forPersonId && (names.get(forPersonId) ?? forPersonId),
    signedAt: row.signedAt.toISOString(),
    expiresAt: row.expiresAt.toISOString(),
  }));
}

async function openStep(store: Store, jobStepId: string): Promise<StepToPass> {
  const step = await store.step(jobStepId);
  if (step === null) throw notFound('step of a job', jobStepId);
  if (step.state === 'done' || step.state === 'cancelled') {
    throw new Refusal(
      'NOT_NOW',
      `Step ${step.number} of job ${step.jobNumber} is ${step.state}; there is nothing left to pass.`,
    );
  }
  return step;
}

async function passingPerson(store: Store, forPersonId: string, signerId: string) {
  const field = 'body.forPersonId';
  if (forPersonId === signerId) {
    throw refuseField(
      'NOT_ALLOWED',
      'Nobody signs an override for oneself. Another coordinator must sign it.',
      field,
      forPersonId,
      'another person than the one who signs',
    );
  }
  const person = await store.person(forPersonId);
  if (person === null) throw notFound('person', forPersonId, field);
  if (!person.active) {
    throw refuseField(
      'NOT_NOW',
      `${person.name} no longer works here.`,
      field,
      forPersonId,
      'a person who works here',
    );
  }
  return person;
}

/** Only a gate can be passed: a refusal has no way on, and what is told or passes needs none. */
function refuseRule(rule: string, lines: readonly ReadyLine[]): void {
  const line = lines.find((each) => each.rule === rule);
  if (line?.strength === 'gate') return;
  const gates = lines.filter(({ strength }) => strength === 'gate').map((each) => each.rule);
  const allowed = gates.length === 0 ? 'no rule: nothing is gated here' : gates.join(', ');
  const found =
    line === undefined
      ? `The rule ${rule} does not stop this step.`
      : line.strength === 'refuse'
        ? `This cannot be overridden: ${line.text}`
        : `Nothing needs to be passed: ${line.text}`;
  throw refuseField(
    'NOT_NOW',
    `${found} Gated for this person: ${allowed}.`,
    'body.rule',
    rule,
    allowed,
  );
}
