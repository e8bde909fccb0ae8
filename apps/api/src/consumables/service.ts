import type { BodyOf, consumables, ReplyOf } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField } from '../refusal.js';
import { consumablesReader, consumablesWriter } from './store.js';

type Item = ReplyOf<typeof consumables.addItem>;
type Lot = ReplyOf<typeof consumables.addLot>;
type LotLoad = ReplyOf<typeof consumables.load>;

export type ConsumablesService = ReturnType<typeof createConsumablesService>;

/** Wire, gas and tips: what is in store, and what hangs at which cell from when to when. */
export function createConsumablesService({ database, uow, newId }: Foundation) {
  const read = consumablesReader(database.reader);

  return {
    async items(): Promise<{ items: Item[] }> {
      return { items: await read.items() };
    },
    async lots(): Promise<{ lots: Lot[] }> {
      return { lots: await read.lots() };
    },
    async loads(): Promise<{ loads: LotLoad[] }> {
      return { loads: await read.loads() };
    },
    async addItem(actor: Actor, input: BodyOf<typeof consumables.addItem>): Promise<Item> {
      return await uow.write(actor, async (unit) => {
        const writer = consumablesWriter(unit.tx);
        if ((await writer.itemByName(input.kind, input.name)) !== null) {
          throw refuseField(
            'DUPLICATE',
            `There is a ${input.kind} called ${input.name} already. Use it, or choose another name.`,
            'body.name',
            input.name,
            'a name not on file',
          );
        }
        const item = await writer.addItem({ ...input, id: newId() });
        unit.append({
          type: 'item.added',
          subjectType: 'item',
          subjectId: item.id,
          version: item.version,
          after: item,
        });
        return item;
      });
    },
    async addLot(actor: Actor, input: BodyOf<typeof consumables.addLot>): Promise<Lot> {
      return await uow.write(actor, async (unit) => {
        const writer = consumablesWriter(unit.tx);
        const item = await writer.item(input.itemId);
        if (item === null) throw notFound('consumable', input.itemId, 'body.itemId');
        if ((await writer.lotByNumber(input.itemId, input.number)) !== null) {
          throw refuseField(
            'DUPLICATE',
            `Lot ${input.number} of ${item.name} is on file already.`,
            'body.number',
            input.number,
            'a lot number not on file',
          );
        }
        const lot = await writer.addLot({ ...input, id: newId() });
        unit.append({
          type: 'lot.received',
          subjectType: 'lot',
          subjectId: lot.id,
          version: lot.version,
          after: lot,
        });
        return lot;
      });
    },
    async load(
      actor: Actor,
      cellId: string,
      { lotId, amount }: BodyOf<typeof consumables.load>,
    ): Promise<LotLoad> {
      const person = actingPerson(actor);
      return await uow.write(actor, async (unit) => {
        const writer = consumablesWriter(unit.tx);
        if ((await writer.cellCode(cellId)) === null) throw notFound('cell', cellId);
        const lot = await writer.lot(lotId);
        if (lot === null) throw notFound('lot', lotId, 'body.lotId');
        const before = (await writer.loads(cellId)).find((load) => load.kind === lot.kind);
        if (before !== undefined) await writer.unload(before, unit.now);
        const left = lot.leftAmount + (before?.lotId === lotId ? before.leftAmount : 0);
        if (amount > left) {
          throw refuseField(
            'NOT_NOW',
            `Lot ${lot.number} has ${left} ${lot.unit} left, ${amount} ${lot.unit} cannot be loaded. Load less, or receive more first.`,
            'body.amount',
            amount,
            `0 to ${left} ${lot.unit}`,
            lot,
          );
        }
        const load = await writer.load({
          id: newId(),
          lotId,
          cellId,
          kind: lot.kind,
          loadedAt: unit.now,
          loadedAmount: amount,
          loadedBy: person.code,
        });
        unit.append({
          type: 'lot.loaded',
          subjectType: 'lot',
          subjectId: lotId,
          cellId,
          before: before ?? null,
          after: load,
        });
        return load;
      });
    },
  };
}
