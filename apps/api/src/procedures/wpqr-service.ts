import type { Wpqr } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import { shopDay } from '../clock.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal, refuseField, stale } from '../refusal.js';
import { changedFields } from '../events/changed-fields.js';

import { testedValuesOutside } from './tested-values.js';
import { toWpqrView, type WpqrInput } from './views.js';
import { wpqrReader, wpqrWriter, type WpqrFields } from './wpqr-store.js';

/** Test records with the range printed on them, as QA types them from the signed sheet. */
export function wpqrService({ database, uow, newId, timeZone }: Foundation) {
  return {
    async wpqrs(): Promise<{ wpqrs: Wpqr[] }> {
      const rows = await wpqrReader(database.reader).wpqrs();
      return { wpqrs: rows.map(toWpqrView) };
    },

    async wpqr(id: string): Promise<Wpqr> {
      return toWpqrView(await found(wpqrReader(database.reader), id));
    },

    async addWpqr(actor: Actor, input: WpqrInput): Promise<Wpqr> {
      return uow.write(actor, async (unit) => {
        const store = wpqrWriter(unit.tx);
        refuseImpossible(input, unit.now, timeZone);
        await refuseTaken(store, input.number, null);
        const id = newId();
        await store.addWpqr(id, input, unit.now);
        unit.append({
          type: 'wpqr.recorded',
          subjectType: 'wpqr',
          subjectId: id,
          version: 1,
          after: input,
        });
        return toWpqrView(await found(store, id));
      });
    },

    /** A correction of what was typed; refused once an approved procedure rests on the record. */
    async editWpqr(
      actor: Actor,
      id: string,
      input: WpqrInput & { expectedVersion: number; reason: string },
    ): Promise<Wpqr> {
      const { expectedVersion, reason, ...fields } = input;
      return uow.write(actor, async (unit) => {
        const store = wpqrWriter(unit.tx);
        const row = await found(store, id);
        if (row.version !== expectedVersion) {
          throw stale('procedure test record', toWpqrView(row), expectedVersion);
        }
        refuseResting(row);
        refuseImpossible(fields, unit.now, timeZone);
        await refuseTaken(store, fields.number, id);
        await store.setWpqr({ id, version: expectedVersion }, fields);
        appendCorrection(unit, { id, version: expectedVersion + 1 }, { row, fields, reason });
        return toWpqrView(await found(store, id));
      });
    },
  };
}

type Store = ReturnType<typeof wpqrReader>;

async function found(store: Store, id: string) {
  const row = await store.wpqr(id);
  if (row === null) throw notFound('procedure test record', id);
  return row;
}

function refuseImpossible(input: WpqrFields, now: Date, timeZone: string): void {
  const today = shopDay(now, timeZone);
  if (input.testedOn > today) {
    throw refuseField(
      'INVALID',
      `The test cannot be on ${input.testedOn}: that day is still to come. Enter the day printed on the record.`,
      'body.testedOn',
      input.testedOn,
      `a day up to today, ${today}`,
    );
  }
  const fields = testedValuesOutside(input);
  const [first] = fields;
  if (first === undefined) return;
  throw new Refusal(
    'INVALID',
    `A tested value lies outside the range printed on the same record: ${first.given} is not within ${first.allowed}. One of the two is mistyped; compare both with the signed record.`,
    { fields },
  );
}

async function refuseTaken(store: Store, number: string, butId: string | null): Promise<void> {
  if (!(await store.wpqrNumberTaken(number, butId))) return;
  throw refuseField(
    'DUPLICATE',
    `The record ${number} is on file already. Open it, or enter the number printed on this record.`,
    'body.number',
    number,
    'a number not on file yet',
  );
}

function refuseResting({ number, approvedWps }: { number: string; approvedWps: string[] }): void {
  if (approvedWps.length === 0) return;
  throw new Refusal(
    'NOT_NOW',
    `${number} cannot be changed: the approved procedure ${approvedWps.join(', ')} rests on it. Record the test anew under its own number, or withdraw the procedure first.`,
  );
}

function appendCorrection(
  unit: Unit,
  at: { id: string; version: number },
  { row, fields, reason }: { row: WpqrFields; fields: WpqrFields; reason: string },
): void {
  unit.append({
    type: 'wpqr.corrected',
    subjectType: 'wpqr',
    subjectId: at.id,
    version: at.version,
    ...changedFields<WpqrFields>(row, fields),
    reason,
  });
}
