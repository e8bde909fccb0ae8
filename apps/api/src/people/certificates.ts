import type { BodyOf, Certificate, people } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField } from '../refusal.js';
import { certificateReader, certificateWriter } from './certificate-store.js';
import { certificateWritten } from './certificate-written.js';
import { peopleWriter } from './store.js';

type NewCertificate = BodyOf<typeof people.addCertificate>;

/** Signed certificates with their printed ranges. */
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
      input: NewCertificate,
    ): Promise<Certificate> {
      refuseImpossible(input, today());
      return uow.write(actor, async (unit) => {
        const people = peopleWriter(unit.tx);
        if ((await people.byId(personId)) === null) throw notFound('person', personId);
        if (input.cellId !== null && (await people.cellCode(input.cellId)) === null)
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
        const at = { id, day: today(), type: 'certificate.added', meaning: 'checked' } as const;
        return certificateWritten(unit, at);
      });
    },
  };
}

function refuseImpossible(input: NewCertificate, day: string): void {
  const { testedOn, validUntil, functionTestOn, kind, cellId } = input;
  if (testedOn > day)
    throw refuseField(
      'INVALID',
      `The test is dated ${testedOn}, which is after today (${day}). Check the certificate.`,
      'body.testedOn',
      testedOn,
      'today or a day before',
    );
  if (validUntil !== null && validUntil < testedOn)
    throw refuseField(
      'INVALID',
      `The certificate ends on ${validUntil}, before its test on ${testedOn}. Check both days on the certificate.`,
      'body.validUntil',
      validUntil,
      `${testedOn} or a day after, or empty`,
    );
  if (functionTestOn !== null && functionTestOn > day)
    throw refuseField(
      'INVALID',
      `The test of function knowledge is dated ${functionTestOn}, which is after today (${day}). Check the certificate.`,
      'body.functionTestOn',
      functionTestOn,
      'today or a day before',
    );
  if (kind !== 'welder' && cellId === null)
    throw refuseField(
      'INVALID',
      "An operator's or setter's certificate points at a cell. Choose the cell it was tested on.",
      'body.cellId',
      null,
      'one of the cells',
    );
}
