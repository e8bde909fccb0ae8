import type { BodyOf, quality } from '@tackboard/contract';
import type { ActingPerson } from '../actor.js';
import { Refusal, refuseField } from '../refusal.js';
import { undecidedOf } from './ncr-rules.js';
import type { NcrRecord, ncrReader } from './ncr-store.js';

type Routes = typeof quality;
type Store = ReturnType<typeof ncrReader>;
type Step = NonNullable<Awaited<ReturnType<Store['stepOfJob']>>>;
type DecideInput = BodyOf<Routes['decideNcr']>;

/** Parts can be taken into quarantine only where there are any. */
export function refuseRaise(step: Step, input: BodyOf<Routes['raiseNcr']>): void {
  const { quantity, counted, weldNumber } = input;
  const job = `job ${step.jobNumber}`;
  if (step.jobState === 'cancelled') {
    throw new Refusal('NOT_NOW', `Job ${step.jobNumber} is cancelled; no parts of it are left.`);
  }
  if (weldNumber !== null && !step.weldNumbers.includes(weldNumber)) {
    throw refuseField(
      'NOT_NOW',
      `Step ${step.number} of ${job} has no weld ${weldNumber}.`,
      'body.weldNumber',
      weldNumber,
      step.weldNumbers.join(', ') || 'no weld',
    );
  }
  const most = counted ? step.goodCount : step.batch;
  if (quantity <= most) return;
  throw refuseField(
    'NOT_NOW',
    counted
      ? `Only ${most} good parts are counted at step ${step.number} of ${job}; ${quantity} cannot be taken out of them. Say that they are not counted yet, or enter fewer.`
      : `The batch of ${job} is ${most} parts; ${quantity} is more than that.`,
    'body.quantity',
    quantity,
    most === 0 ? 'none: no good part is counted yet' : `1 to ${most}`,
  );
}

export function refuseClosed(ncr: NcrRecord): void {
  if (ncr.closedAt === null) return;
  throw new Refusal(
    'NOT_NOW',
    `NCR ${ncr.number} is closed and stays as it is. Raise a new one for the same parts.`,
  );
}

export function refuseOwnFinding(ncr: NcrRecord, person: ActingPerson): void {
  if (!ncr.twoPersons || ncr.raisedBy !== person.id) return;
  throw new Refusal(
    'NOT_ALLOWED',
    `You raised NCR ${ncr.number} yourself. For ${ncr.partNumber} another coordinator decides.`,
  );
}

export function refuseTooMany(ncr: NcrRecord, quantity: number): void {
  const undecided = undecidedOf(ncr);
  if (quantity <= undecided) return;
  throw refuseField(
    'NOT_NOW',
    `NCR ${ncr.number} has ${undecided} parts to decide on; ${quantity} is more than that.`,
    'body.quantity',
    quantity,
    undecided === 0 ? 'none: every part is decided' : `1 to ${undecided}`,
  );
}

/** Rework goes under a procedure that is approved today; a concession names the customer's paper. */
export async function refuseWithoutPaper(store: Store, input: DecideInput): Promise<void> {
  const { disposition, wpsId, concession } = input;
  if (disposition === 'concession' && concession === null) {
    throw refuseField(
      'NEEDS_REASON',
      'A concession is the customer’s to give: enter the number under which they gave it.',
      'body.concession',
      null,
      'the number of the concession',
    );
  }
  if (disposition !== 'rework') return;
  const wps = wpsId === null ? null : await store.wps(wpsId);
  if (wps?.state === 'approved') return;
  throw refuseField(
    'DOES_NOT_FIT',
    wps === null
      ? 'Rework is welding: choose the procedure under which it is done.'
      : `${wps.number} r${wps.revision} is ${wps.state}. Rework needs an approved procedure.`,
    'body.wpsId',
    wpsId,
    'an approved procedure',
  );
}

export function refuseClosing(ncr: NcrRecord): void {
  const undecided = undecidedOf(ncr);
  if (undecided > 0) {
    throw new Refusal(
      'NOT_NOW',
      `NCR ${ncr.number} cannot be closed: ${undecided} parts are not decided. The coordinator decides them first.`,
    );
  }
  const waiting = ncr.decisions.find(
    ({ disposition, accepted }) => disposition === 'rework' && accepted === null,
  );
  if (waiting === undefined) return;
  throw new Refusal(
    'NOT_NOW',
    `NCR ${ncr.number} cannot be closed: ${waiting.quantity} reworked parts are not inspected again.`,
  );
}
