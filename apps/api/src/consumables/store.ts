import { Item, type itemKinds, type Lot, type LotLoad } from '@tackboard/contract';
import type { z } from 'zod';
import type { Db, TransactionClient } from '../db/client.js';
import type { Prisma } from '../db/generated/client.js';

export type ItemView = z.infer<typeof Item>;
export type LotView = z.infer<typeof Lot>;
export type LotLoadView = z.infer<typeof LotLoad>;
export type ItemKind = (typeof itemKinds)[number];

const ofItem = { item: { select: { name: true, kind: true, unit: true } } } as const;
type LotRow = Prisma.LotGetPayload<{ include: typeof ofItem }>;

function toLot({ item, ...lot }: LotRow): LotView {
  return { ...lot, itemName: item.name, kind: item.kind, unit: item.unit };
}

const ofLoad = {
  cell: { select: { code: true } },
  lot: {
    select: {
      number: true,
      certificate: true,
      item: { select: { id: true, name: true, designation: true, unit: true } },
    },
  },
} as const satisfies Prisma.LotLoadInclude;
type LoadRow = Prisma.LotLoadGetPayload<{ include: typeof ofLoad }>;

function toLoad({ cell, lot, ...load }: LoadRow, names: ReadonlyMap<string, string>): LotLoadView {
  return {
    ...load,
    lotNumber: lot.number,
    certificate: lot.certificate,
    itemId: lot.item.id,
    itemName: lot.item.name,
    designation: lot.item.designation,
    unit: lot.item.unit,
    cellCode: cell.code,
    loadedAt: load.loadedAt.toISOString(),
    unloadedAt: load.unloadedAt?.toISOString() ?? null,
    loadedBy: names.get(load.loadedBy) ?? load.loadedBy,
  };
}

export function consumablesReader(db: Db) {
  return {
    async items(): Promise<ItemView[]> {
      const rows = await db.item.findMany({ orderBy: [{ kind: 'asc' }, { name: 'asc' }] });
      const sums = await db.lot.groupBy({ by: ['itemId'], _sum: { leftAmount: true } });
      const stock = new Map(sums.map(({ itemId, _sum }) => [itemId, _sum.leftAmount ?? 0]));
      return rows.map((row) => ({
        ...row,
        unit: Item.shape.unit.parse(row.unit),
        stock: stock.get(row.id) ?? 0,
      }));
    },
    async itemNamed(kind: ItemKind, name: string) {
      return db.item.findUnique({ where: { kind_name: { kind, name } }, select: { id: true } });
    },
    async item(id: string) {
      return db.item.findUnique({ where: { id } });
    },
    async lots(): Promise<LotView[]> {
      const rows = await db.lot.findMany({
        include: ofItem,
        orderBy: [{ receivedOn: 'desc' }, { number: 'asc' }],
      });
      return rows.map(toLot);
    },
    async lot(id: string): Promise<LotView | null> {
      const row = await db.lot.findUnique({ where: { id }, include: ofItem });
      return row && toLot(row);
    },
    async lotNumbered(itemId: string, number: string) {
      return db.lot.findUnique({
        where: { itemId_number: { itemId, number } },
        select: { id: true },
      });
    },
    /** What is loaded now, by cell and kind. */
    async loads(where: { cellId?: string; kind?: ItemKind; id?: string }): Promise<LotLoadView[]> {
      const rows = await db.lotLoad.findMany({
        where: { ...where, unloadedAt: null },
        include: ofLoad,
        orderBy: [{ cell: { code: 'asc' } }, { kind: 'asc' }],
      });
      const people = await db.person.findMany({
        where: { id: { in: [...new Set(rows.map(({ loadedBy }) => loadedBy))] } },
        select: { id: true, name: true },
      });
      const names = new Map(people.map(({ id, name }) => [id, name]));
      return rows.map((row) => toLoad(row, names));
    },
    /** One load, whether it still hangs there or not. */
    async load(id: string): Promise<LotLoadView | null> {
      const row = await db.lotLoad.findUnique({ where: { id }, include: ofLoad });
      return row && toLoad(row, new Map());
    },
    async cellExists(id: string): Promise<boolean> {
      return (await db.cell.findUnique({ where: { id }, select: { id: true } })) !== null;
    },
  };
}

export function consumablesWriter(tx: TransactionClient) {
  return {
    ...consumablesReader(tx),
    async addItem(
      item: Pick<ItemView, 'id' | 'kind' | 'designation' | 'name' | 'wireDiameterMm' | 'unit'>,
    ): Promise<void> {
      await tx.item.create({ data: item });
    },
    async addLot(
      lot: Pick<LotView, 'id' | 'itemId' | 'number' | 'receivedOn' | 'certificate'> & {
        readonly receivedAmount: number;
      },
    ): Promise<void> {
      await tx.lot.create({ data: { ...lot, leftAmount: lot.receivedAmount } });
    },
    async setCertificate(lotId: string, certificate: string | null): Promise<void> {
      await tx.lot.update({
        where: { id: lotId },
        data: { certificate, version: { increment: 1 } },
      });
    },
    async setLeft(lotId: string, leftAmount: number): Promise<void> {
      await tx.lot.update({
        where: { id: lotId },
        data: { leftAmount, version: { increment: 1 } },
      });
    },
    async endLoad(id: string, unloadedAt: Date, leftAmount: number): Promise<void> {
      await tx.lotLoad.update({ where: { id }, data: { unloadedAt, leftAmount } });
    },
    async startLoad(load: {
      readonly id: string;
      readonly lotId: string;
      readonly cellId: string;
      readonly kind: ItemKind;
      readonly amount: number;
      readonly loadedAt: Date;
      readonly loadedBy: string;
    }): Promise<void> {
      const { amount, ...row } = load;
      await tx.lotLoad.create({ data: { ...row, loadedAmount: amount, leftAmount: amount } });
    },
  };
}
