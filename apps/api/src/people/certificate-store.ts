import type { Certificate } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { CertificateModel, ConfirmationModel } from '../db/generated/models.js';
import { certificateDates } from './certificate-dates.js';
import { standingOn } from './certificate-standing.js';

type Row = CertificateModel & {
  confirmations: ConfirmationModel[];
  person: { code: string; name: string };
};

const withAll = {
  confirmations: { orderBy: { confirmedOn: 'desc' as const } },
  person: { select: { code: true, name: true } },
};

export function certificateReader(db: Db) {
  return {
    async list(personId: string | undefined, day: string): Promise<Certificate[]> {
      const rows = await db.certificate.findMany({
        where: personId === undefined ? {} : { personId },
        orderBy: [{ personId: 'asc' }, { number: 'asc' }],
        include: withAll,
      });
      const names = await confirmers(db, rows);
      return rows.map((row) => viewOf(row, day, names));
    },
    async byId(id: string, day: string): Promise<Certificate | null> {
      const row = await db.certificate.findUnique({ where: { id }, include: withAll });
      return row === null ? null : viewOf(row, day, await confirmers(db, [row]));
    },
    async numberTaken(number: string): Promise<boolean> {
      return (await db.certificate.findFirst({ where: { number }, select: { id: true } })) !== null;
    },
  };
}

export type NewCertificate = Omit<
  CertificateModel,
  'version' | 'revokedOn' | 'jointTypes' | 'positions' | 'materialGroups' | 'fillerGroups'
> &
  Pick<Certificate, 'jointTypes' | 'positions' | 'materialGroups' | 'fillerGroups'>;

export function certificateWriter(tx: TransactionClient) {
  return {
    ...certificateReader(tx),
    async add(row: NewCertificate): Promise<void> {
      await tx.certificate.create({ data: row });
    },
    async confirm(row: ConfirmationModel): Promise<void> {
      await tx.confirmation.create({ data: row });
      await tx.certificate.update({
        where: { id: row.certificateId },
        data: { version: { increment: 1 } },
      });
    },
  };
}

async function confirmers(db: Db, rows: readonly Row[]): Promise<ReadonlyMap<string, string>> {
  const ids = rows.flatMap((row) => row.confirmations.map((one) => one.confirmedBy));
  const people = await db.person.findMany({
    where: { id: { in: [...new Set(ids)] } },
    select: { id: true, code: true },
  });
  return new Map(people.map((person) => [person.id, person.code]));
}

function viewOf(row: Row, day: string, names: ReadonlyMap<string, string>): Certificate {
  const {
    thicknessMinMm,
    thicknessMaxMm,
    diameterMinMm,
    diameterMaxMm,
    person,
    createdAt: _createdAt,
    ...rest
  } = row;
  const dates = certificateDates({
    ...row,
    confirmedOn: row.confirmations.map(({ confirmedOn }) => confirmedOn),
  });
  return {
    ...rest,
    jointTypes: row.jointTypes as string[],
    positions: row.positions as string[],
    materialGroups: row.materialGroups as string[],
    fillerGroups: row.fillerGroups as string[],
    thicknessMm: { min: thicknessMinMm, max: thicknessMaxMm },
    diameterMm:
      diameterMinMm === null && diameterMaxMm === null
        ? null
        : { min: diameterMinMm, max: diameterMaxMm },
    personCode: person.code,
    personName: person.name,
    confirmations: row.confirmations.map(
      ({ certificateId: _certificateId, enteredAt, confirmedBy, ...one }) => ({
        ...one,
        enteredAt: enteredAt.toISOString(),
        confirmedBy: names.get(confirmedBy) ?? '–',
      }),
    ),
    confirmedUntil: dates.confirmedUntil,
    standing: standingOn(day, {
      revokedOn: row.revokedOn,
      validUntil: dates.validUntil,
      confirmedUntil: dates.confirmedUntil,
    }),
  };
}
