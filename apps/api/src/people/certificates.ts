import type { BodyOf, Certificate, people } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import { shopDay } from '../clock.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal, refuseField } from '../refusal.js';
import { certificateReader, certificateWriter } from './certificate-store.js';
import { evidenceWords, provenUse } from './evidence.js';
import { peopleWriter } from './store.js';

/** Signed certificates with their printed ranges, and the six-monthly confirmations that keep them. */
export function createCertificates({ database, uow, clock, newId, timeZone }: Foundation) {
  const read = certificateReader(database.reader);
  const today = () => shopDay(clock.now(), timeZone);

  return {
    async certificates(personId?: string): Promise<{ certificates: Certificate[] }> {
      return { certificates: await read.list(personId, today()) };
    },
    async addCertificate(
      actor: Actor,
      personId: string,
      input: BodyOf<typeof people.addCertificate>,
    ): Promise<Certificate> {
      if (input.testedOn > today())
        throw refuseField(
          'INVALID',
          `The test is dated ${input.testedOn}, which is after today (${today()}). Check the certificate.`,
          'body.testedOn',
          input.testedOn,
          'today or a day before',
        );
      if (input.kind !== 'welder' && input.cellId === null)
        throw refuseField(
          'INVALID',
          "An operator's or setter's certificate points at a cell. Choose the cell it was tested on.",
          'body.cellId',
          null,
          'one of the cells',
        );
      return uow.write(actor, async (unit) => {
        if ((await peopleWriter(unit.tx).byId(personId)) === null)
          throw notFound('person', personId);
        if (input.cellId !== null && (await peopleWriter(unit.tx).cellCode(input.cellId)) === null)
          throw notFound('cell', input.cellId, 'body.cellId');
        const writer = certificateWriter(unit.tx);
        if (await writer.numberTaken(input.number))
          throw refuseField(
            'DUPLICATE',
            `Certificate ${input.number} is on file already.`,
            'body.number',
            input.number,
            'a number not on file',
          );
        const { thicknessMm, diameterMm, ...rest } = input;
        const id = newId();
        await writer.add({
          ...rest,
          id,
          personId,
          thicknessMinMm: thicknessMm.min,
          thicknessMaxMm: thicknessMm.max,
          diameterMinMm: diameterMm?.min ?? null,
          diameterMaxMm: diameterMm?.max ?? null,
          createdAt: unit.now,
        });
        return written(unit, id, 'certificate.added', 'checked');
      });
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
        if (before.personId === signer.id)
          throw new Refusal(
            'NOT_NOW',
            'Nobody confirms their own certificate. Ask another coordinator.',
          );
        if (before.standing === 'revoked')
          throw new Refusal(
            'NOT_NOW',
            `Certificate ${before.number} was revoked on ${before.revokedOn ?? ''}. It takes a new test.`,
          );
        if (input.confirmedOn > today() || input.confirmedOn < before.testedOn) {
          throw refuseField(
            'NOT_NOW',
            `The confirmation is dated ${input.confirmedOn}. It must lie between the test (${before.testedOn}) and today (${today()}).`,
            'body.confirmedOn',
            input.confirmedOn,
            `${before.testedOn} to ${today()}`,
          );
        }
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
        return written(unit, certificateId, 'certificate.confirmed', 'approved', input.evidence);
      });
    },
  };

  async function written(
    unit: Unit,
    id: string,
    type: string,
    meaning: 'checked' | 'approved',
    reason?: string,
  ): Promise<Certificate> {
    const certificate = await certificateWriter(unit.tx).byId(id, today());
    if (certificate === null) throw new Error(`Certificate ${id} was written but is not there.`);
    unit.append({
      type,
      subjectType: 'certificate',
      subjectId: id,
      version: certificate.version,
      after: certificate,
      meaning,
      reason: reason ?? null,
    });
    return certificate;
  }
}
