import type { BodyOf, consumables } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { Db } from '../db/client.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField } from '../refusal.js';
import { afterTaking, asWeighed } from './amounts.js';
import {
  consumablesReader,
  consumablesWriter,
  type ItemView,
  type LotLoadView,
  type LotView,
} from './store.js';

export type ConsumablesService = ReturnType<typeof createConsumablesService>;

export function createConsumablesService(foundation: Foundation) {
  return { ...itemService(foundation), ...loadService(foundation) };
}

function itemService({ database, uow, newId }: Foundation) {
  return {
    async items(): Promise<{ items: ItemView[] }> {
      return { items: await consumablesReader(database.reader).items() };
    },

    async addItem(actor: Actor, input: BodyOf<typeof consumables.addItem>): Promise<ItemView> {
      return uow.write(actor, async (unit) => {
        const store = consumablesWriter(unit.tx);
        if ((await store.itemNamed(input.kind, input.name)) !== null) throw itemOnFile(input);
        const item = { ...input, id: newId() };
        await store.addItem(item);
        unit.append({
          type: 'item.added',
          subjectType: 'item',
          subjectId: item.id,
          version: 1,
          after: input,
        });
        return { ...item, version: 1, active: true, stock: 0 };
      });
    },

    async lots(): Promise<{ lots: LotView[] }> {
      return { lots: await consumablesReader(database.reader).lots() };
    },

    async addLot(actor: Actor, input: BodyOf<typeof consumables.addLot>): Promise<LotView> {
      return uow.write(actor, async (unit) => {
        const store = consumablesWriter(unit.tx);
        const item = await store.item(input.itemId);
        if (item === null) throw notFound('consumable', input.itemId, 'body.itemId');
        if ((await store.lotNumbered(item.id, input.number)) !== null)
          throw lotOnFile(item.name, input.number);
        const id = newId();
        await store.addLot({ ...input, id });
        unit.append({
          type: 'lot.received',
          subjectType: 'lot',
          subjectId: id,
          version: 1,
          after: input,
        });
        return foundLot(store, id);
      });
    },
  };
}

function loadService({ database, uow, newId }: Foundation) {
  return {
    async loads(): Promise<{ loads: LotLoadView[] }> {
      return { loads: await consumablesReader(database.reader).loads({}) };
    },

    /** What is loaded at one cell now, for other areas; inside their transaction when they pass it. */
    async loadsAt(cellId: string, db: Db = database.reader): Promise<LotLoadView[]> {
      return consumablesReader(db).loads({ cellId });
    },

    async load(
      actor: Actor,
      cellId: string,
      { lotId, amount }: BodyOf<typeof consumables.load>,
    ): Promise<LotLoadView> {
      if (amount === 0) throw nothingToLoad();
      return uow.write(actor, async (unit) => {
        const store = consumablesWriter(unit.tx);
        if (!(await store.cellExists(cellId))) throw notFound('cell', cellId, 'params.cellId');
        const { kind } = await foundLot(store, lotId);
        for (const former of await store.loads({ cellId, kind })) await unload(unit, former);
        // Read again: the former load may have been of this very lot.
        const lot = await foundLot(store, lotId);
        const left = afterTaking(lot.leftAmount, amount);
        if (left === null) throw lotTooSmall(lot, amount);
        await store.setLeft(lotId, left);
        const id = newId();
        const loadedBy = actingPerson(actor).id;
        await store.startLoad({ id, lotId, cellId, kind, amount, loadedAt: unit.now, loadedBy });
        unit.append({
          type: 'lot.loaded',
          ...subject(lotId, cellId, lot.version + 1),
          before: { leftAmount: lot.leftAmount },
          after: { leftAmount: left, loadedAmount: amount },
        });
        const [loaded] = await store.loads({ id });
        if (loaded === undefined) throw notFound('load', id);
        return loaded;
      });
    },
  };
}

/** What is left of it goes back to its lot. */
async function unload(unit: Unit, load: LotLoadView): Promise<void> {
  const store = consumablesWriter(unit.tx);
  const lot = await foundLot(store, load.lotId);
  const leftAmount = asWeighed(lot.leftAmount + load.leftAmount);
  await store.endLoad(load.id, unit.now);
  await store.setLeft(lot.id, leftAmount);
  unit.append({
    type: 'lot.unloaded',
    ...subject(lot.id, load.cellId, lot.version + 1),
    before: { leftAmount: lot.leftAmount },
    after: { leftAmount },
  });
}

function subject(lotId: string, cellId: string, version: number) {
  return { subjectType: 'lot', subjectId: lotId, version, cellId } as const;
}

async function foundLot(store: ReturnType<typeof consumablesReader>, id: string): Promise<LotView> {
  const lot = await store.lot(id);
  if (lot === null) throw notFound('lot', id, 'body.lotId');
  return lot;
}

function itemOnFile({ kind, name }: Pick<ItemView, 'kind' | 'name'>) {
  return refuseField(
    'DUPLICATE',
    `There is a ${kind} ${name} already. Use it, or choose another name.`,
    'body.name',
    name,
    `a name that no other ${kind} has`,
  );
}

function lotOnFile(itemName: string, number: string) {
  return refuseField(
    'DUPLICATE',
    `Lot ${number} of ${itemName} is on file already. Check the number on the label.`,
    'body.number',
    number,
    `a lot number that ${itemName} does not have yet`,
  );
}

function nothingToLoad() {
  return refuseField(
    'INVALID',
    'The amount is 0: nothing would be loaded. Enter what is put on.',
    'body.amount',
    0,
    'more than 0',
  );
}

function lotTooSmall({ number, leftAmount, unit }: LotView, amount: number) {
  return refuseField(
    'NOT_NOW',
    `Lot ${number} has ${leftAmount} ${unit} left, ${amount} ${unit} were to be loaded. Load less, or another lot.`,
    'body.amount',
    amount,
    `at most ${leftAmount}`,
    { leftAmount },
  );
}
