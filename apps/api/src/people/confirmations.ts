import type { BodyOf, Certificate, people } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal, refuseField } from '../refusal.js';
import { certificateWriter } from './certificate-store.js';
import { certificateWritten } from './certificate-written.js';
import { evidenceReader } from './evidence-store.js';
import { evidenceWindow, evidenceWords, provenUse, type WorkedRun } from './evidence.js';

/** The six-monthly confirmations that keep a certificate valid. */
export function createConfirmations({ database, uow, clock, newId, timeZone }: Foundation) {
  const today = () => shopDay(clock.now(), timeZone);

  return {
    /** The runs of these people that could prove a confirmation dated that day. */
    async workedRuns(personIds: readonly string[], day: string): Promise<WorkedRun[]> {
      const { from, until } = evidenceWindow(day, timeZone);
      return evidenceReader(database.reader).runs(personIds, from, until);
    },
    async confirmCertificate(
      actor: Actor,
      certificateId: string,
      input: BodyOf<typeof people.confirmCertificate>,
    ): Promise<Certificate> {
      const signer = actingPerson(actor);
      return uow.write(actor, async (unit) => {
        const writer = certificateWriter(unit.tx);
        const before = await writer.byId(certificateId, today());
        if (before === null) throw notFound('certificate', certificateId);
        refuseSigning(before, signer.id);
        refuseDate(before, input.confirmedOn, today());
        refuseRevival(before, input.confirmedOn);
        const { confirmedOn, runIds = [] } = input;
        const proof = await provenUse(unit.tx, before, { confirmedOn, runIds, timeZone });
        const found = evidenceWords(proof, before.process, timeZone);
        await writer.confirm({
          id: newId(),
          certificateId,
          confirmedOn,
          enteredAt: unit.now,
          confirmedBy: signer.id,
          evidence: found === '' ? input.evidence : `${input.evidence} (on file: ${found})`,
        });
        return certificateWritten(unit, {
          id: certificateId,
          day: today(),
          type: 'certificate.confirmed',
          meaning: 'approved',
          reason: input.evidence,
        });
      });
    },
  };
}

function refuseSigning(certificate: Certificate, signerId: string): void {
  if (certificate.personId === signerId)
    throw new Refusal('NOT_NOW', 'Nobody confirms their own certificate. Ask another coordinator.');
  if (certificate.standing === 'revoked')
    throw new Refusal(
      'NOT_NOW',
      `Certificate ${certificate.number} was revoked on ${certificate.revokedOn ?? ''}. It takes a new test.`,
    );
}

function refuseDate({ testedOn }: Certificate, confirmedOn: string, day: string): void {
  if (confirmedOn <= day && confirmedOn >= testedOn) return;
  throw refuseField(
    'NOT_NOW',
    `The confirmation is dated ${confirmedOn}. It must lie between the test (${testedOn}) and today (${day}).`,
    'body.confirmedOn',
    confirmedOn,
    `${testedOn} to ${day}`,
  );
}

/**
 * A certificate that nobody confirmed in time has lapsed, and a later signature does not bring it back. The first one
 * on file may stand for those that the paper shows before it.
 */
function refuseRevival(certificate: Certificate, confirmedOn: string): void {
  const { number, confirmations, confirmedUntil, testedOn } = certificate;
  if (confirmations.length === 0 || confirmedUntil === null || confirmedOn <= confirmedUntil)
    return;
  throw refuseField(
    'NOT_NOW',
    `Certificate ${number} was confirmed until ${confirmedUntil} and has lapsed since. Enter first a confirmation that was signed in time, if there is one. Only a new test helps otherwise.`,
    'body.confirmedOn',
    confirmedOn,
    `${testedOn} to ${confirmedUntil}`,
  );
}
