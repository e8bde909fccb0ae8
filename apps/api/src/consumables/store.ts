import type { ReplyOf, consumables } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';
import type { ItemModel, LotLoadModel, LotModel } from '../db/generated/models.js';

type Item = ReplyOf<typeof consumables.addItem>;
type Lot = ReplyOf<typeof consumables.addLot>;
type LotLoad = ReplyOf<typeof consumables.load>;

const ofItem = { item: { select: { name: true, kind: true, unit: true } } };
const ofLoad = {
  cell: { select: { code: true } },
  lot: {
    select: {
      number: true,
      itemId: true,
      item: { select: { name: true, designation: true, unit: true } },
    },
  },
};

export function consumablesReader(db: Db) {
  return {
    async items(): Promise<Item[]> {
      const rows = await db.item.findMany({ orderBy: [{ kind: 'asc' }, { name: 'asc' }] });
      const sums = await db.lot.groupBy({ by: ['itemId'], _sum: { leftAmount: true } });
      const stock = new Map(sums.map((sum) => [sum.itemId, sum._sum.leftAmount ?? 0]));
      return rows.map((row) => itemView(row, stock.get(row.id) ?? 0));
    },
    async itemByName(kind: ItemModel['kind'], name: string): Promise<ItemModel | null> {
      return await db.item.findUnique({ where: { kind_name: { kind, name } } });
    },
    async item(id: string): Promise<ItemModel | null> {
      return await db.item.findUnique({ where: { id } });
    },
    async lots(): Promise<Lot[]> {
      const rows = await db.lot.findMany({
        orderBy: [{ receivedOn: 'desc' }, { number: 'asc' }],
        include: ofItem,
      });
      return rows.map(lotView);
    },
    async lot(id: string): Promise<Lot | null> {
      const row = await db.lot.findUnique({ where: { id }, include: ofItem });
      return row === null ? null : lotView(row);
    },
    async lotByNumber(itemId: string, number: string): Promise<LotModel | null> {
      return await db.lot.findUnique({ where: { itemId_number: { itemId, number } } });
    },
    async cellCode(cellId: string): Promise<string | null> {
      return (
        (await db.cell.findUnique({ where: { id: cellId }, select: { code: true } }))?.code ?? null
      );
    },
    /** What hangs at the cells now; at one cell when it is named. */
    async loads(cellId?: string): Promise<LotLoad[]> {
      const rows = await db.lotLoad.findMany({
        where: { unloadedAt: null, ...(cellId === undefined ? {} : { cellId }) },
        orderBy: [{ cellId: 'asc' }, { kind: 'asc' }],
        include: ofLoad,
      });
      return rows.map(loadView);
    },
  };
}

type NewLoad = Pick<
  LotLoadModel,
  'id' | 'lotId' | 'cellId' | 'kind' | 'loadedAt' | 'loadedAmount' | 'loadedBy'
>;

export function consumablesWriter(tx: TransactionClient) {
  return {
    ...consumablesReader(tx),
    async addItem(
      row: Pick<ItemModel, 'id' | 'kind' | 'designation' | 'name' | 'wireDiameterMm' | 'unit'>,
    ): Promise<Item> {
      return itemView(await tx.item.create({ data: row }), 0);
    },
    async addLot(
      row: Pick<
        LotModel,
        'id' | 'itemId' | 'number' | 'receivedOn' | 'certificate' | 'receivedAmount'
      >,
    ): Promise<Lot> {
      return lotView(
        await tx.lot.create({ data: { ...row, leftAmount: row.receivedAmount }, include: ofItem }),
      );
    },
    /** What is left on it goes back to the lot. */
    async unload(
      load: Pick<LotLoad, 'id' | 'lotId' | 'leftAmount'>,
      unloadedAt: Date,
    ): Promise<void> {
      await tx.lotLoad.update({ where: { id: load.id }, data: { unloadedAt } });
      await tx.lot.update({
        where: { id: load.lotId },
        data: { leftAmount: { increment: load.leftAmount }, version: { increment: 1 } },
      });
    },
    async load(row: NewLoad): Promise<LotLoad> {
      await tx.lot.update({
        where: { id: row.lotId },
        data: { leftAmount: { decrement: row.loadedAmount }, version: { increment: 1 } },
      });
      return loadView(
        await tx.lotLoad.create({
          data: { ...row, leftAmount: row.loadedAmount },
          include: ofLoad,
        }),
      );
    },
  };
}

function itemView(row: ItemModel, stock: number): Item {
  return { ...row, unit: row.unit as Item['unit'], stock };
}

function lotView({
  item,
  ...row
}: LotModel & { item: Pick<ItemModel, 'name' | 'kind' | 'unit'> }): Lot {
  return { ...row, itemName: item.name, kind: item.kind, unit: item.unit };
}

type LoadRow = LotLoadModel & {
  cell: { code: string };
  lot: {
    number: string;
    itemId: string;
    item: { name: string; designation: string; unit: string };
  };
};

function loadView({ lot, cell, ...row }: LoadRow): LotLoad {
  return {
    ...row,
    lotNumber: lot.number,
    itemId: lot.itemId,
    itemName: lot.item.name,
    designation: lot.item.designation,
    unit: lot.item.unit,
    cellCode: cell.code,
    loadedAt: row.loadedAt.toISOString(),
    unloadedAt: row.unloadedAt?.toISOString() ?? null,
  };
}
