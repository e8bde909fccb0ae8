import type { Person } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { PersonModel } from '../db/generated/models.js';
import type { Attempts } from './attempts.js';

export type PersonRow = PersonModel;

export function viewOf({
  passwordHash,
  pinHash,
  createdAt: _createdAt,
  ...row
}: PersonRow): Person {
  return {
    ...row,
    language: row.language as Person['language'],
    hasPassword: passwordHash !== null,
    hasPin: pinHash !== null,
  };
}

/** One session with the person and the tablet behind it, in one read: it stands before every request. */
export interface SessionRow {
  readonly sessionId: string;
  readonly lastUsedAt: Date;
  readonly endsAt: Date;
  readonly personId: string;
  readonly code: string;
  readonly name: string;
  readonly role: Person['role'];
  readonly coordinator: boolean;
  readonly tabletId: string | null;
}

export interface TabletRow {
  readonly id: string;
  readonly name: string;
  readonly cellId: string;
  readonly cellCode: string;
}

export function peopleReader(db: Db) {
  return {
    async anyone(): Promise<boolean> {
      return (await db.person.findFirst({ select: { id: true } })) !== null;
    },
    async list(): Promise<Person[]> {
      return (await db.person.findMany({ orderBy: { code: 'asc' } })).map(viewOf);
    },
    async roster(): Promise<{ code: string; name: string }[]> {
      return db.person.findMany({
        where: { active: true, pinHash: { not: null }, role: { in: ['welder', 'qa'] } },
        orderBy: { name: 'asc' },
        select: { code: true, name: true },
      });
    },
    async byId(id: string): Promise<PersonRow | null> {
      return db.person.findUnique({ where: { id } });
    },
    async byCode(code: string): Promise<PersonRow | null> {
      return db.person.findUnique({ where: { code } });
    },
    async activeManagers(): Promise<number> {
      return db.person.count({ where: { role: 'manager', active: true } });
    },
    async attempts(key: string): Promise<Attempts | null> {
      return db.signInAttempt.findUnique({ where: { key } });
    },
    async session(tokenHash: string): Promise<SessionRow | null> {
      const [row] = await db.$queryRaw<
        (Omit<SessionRow, 'coordinator' | 'lastUsedAt' | 'endsAt'> & {
          coordinator: unknown;
          lastUsedAt: unknown;
          endsAt: unknown;
        })[]
      >`
        SELECT s."id" AS "sessionId", s."lastUsedAt", s."endsAt", s."tabletId",
               p."id" AS "personId", p."code", p."name", p."role", p."coordinator"
        FROM "Session" s JOIN "Person" p ON p."id" = s."personId"
        WHERE s."tokenHash" = ${tokenHash} AND s."revokedAt" IS NULL AND p."active" = true`;
      if (row === undefined) return null;
      return {
        ...row,
        coordinator: Boolean(row.coordinator),
        lastUsedAt: new Date(row.lastUsedAt as string),
        endsAt: new Date(row.endsAt as string),
      };
    },
    async tablet(tokenHash: string): Promise<TabletRow | null> {
      const [row] = await db.$queryRaw<TabletRow[]>`
        SELECT t."id", t."name", t."cellId", c."code" AS "cellCode"
        FROM "Tablet" t JOIN "Cell" c ON c."id" = t."cellId"
        WHERE t."tokenHash" = ${tokenHash} AND t."revokedAt" IS NULL`;
      return row ?? null;
    },
    async openSessions(personId: string, now: Date) {
      return db.session.findMany({
        where: { personId, revokedAt: null, endsAt: { gt: now } },
        orderBy: { startedAt: 'desc' },
        include: { tablet: { select: { name: true } } },
      });
    },
    async tablets() {
      return db.tablet.findMany({
        orderBy: { registeredAt: 'desc' },
        include: { cell: { select: { code: true } } },
      });
    },
    async cellCode(cellId: string): Promise<string | null> {
      return (
        (await db.cell.findUnique({ where: { id: cellId }, select: { code: true } }))?.code ?? null
      );
    },
  };
}

type NewSession = {
  readonly id: string;
  readonly tokenHash: string;
  readonly personId: string;
  readonly tabletId: string | null;
  readonly startedAt: Date;
  readonly endsAt: Date;
};

export function peopleWriter(tx: TransactionClient) {
  return {
    ...peopleReader(tx),
    async add(
      row: Pick<
        PersonRow,
        'id' | 'code' | 'name' | 'role' | 'coordinator' | 'language' | 'passwordHash' | 'createdAt'
      >,
    ): Promise<PersonRow> {
      return tx.person.create({ data: row });
    },
    async change(
      id: string,
      changes: Partial<
        Pick<
          PersonRow,
          | 'code'
          | 'name'
          | 'role'
          | 'coordinator'
          | 'language'
          | 'active'
          | 'passwordHash'
          | 'pinHash'
        >
      >,
    ): Promise<PersonRow> {
      return tx.person.update({
        where: { id },
        data: { ...changes, version: { increment: 1 } },
      });
    },
    async setAttempts(key: string, attempts: Attempts, lastAt: Date): Promise<void> {
      await tx.signInAttempt.upsert({
        where: { key },
        create: { key, ...attempts, lastAt },
        update: { ...attempts, lastAt },
      });
    },
    async clearAttempts(keys: readonly string[]): Promise<void> {
      await tx.signInAttempt.deleteMany({ where: { key: { in: [...keys] } } });
    },
    async startSession(row: NewSession): Promise<void> {
      await tx.session.create({ data: { ...row, lastUsedAt: row.startedAt } });
    },
    async useSession(id: string, lastUsedAt: Date, endsAt: Date): Promise<void> {
      await tx.session.updateMany({ where: { id, revokedAt: null }, data: { lastUsedAt, endsAt } });
    },
    /** Answers whose sessions were ended; none for an unknown or ended one. */
    async endSessions(
      where: {
        readonly id?: string | { readonly not: string };
        readonly personId?: string;
        readonly tabletId?: string;
      },
      revokedAt: Date,
    ): Promise<number> {
      return (
        await tx.session.updateMany({ where: { ...where, revokedAt: null }, data: { revokedAt } })
      ).count;
    },
  };
}

export function tabletWriter(tx: TransactionClient) {
  return {
    async addTablet(row: {
      readonly id: string;
      readonly name: string;
      readonly cellId: string;
      readonly tokenHash: string;
      readonly registeredAt: Date;
      readonly registeredBy: string;
    }) {
      return tx.tablet.create({ data: row, include: { cell: { select: { code: true } } } });
    },
    async revokeTablet(id: string, revokedAt: Date): Promise<boolean> {
      return (
        (
          await tx.tablet.updateMany({
            where: { id, revokedAt: null },
            data: { revokedAt, version: { increment: 1 } },
          })
        ).count === 1
      );
    },
  };
}
