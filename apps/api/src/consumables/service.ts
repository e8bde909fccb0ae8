import type { BodyOf, consumables } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField, stale } from '../refusal.js';
import type { QueueService } from '../queue/service.js';
import { feederService } from './feeder.js';
import { foundLot, loadService } from './load-service.js';
import { consumablesReader, consumablesWriter, type ItemView, type LotView } from './store.js';
import { useService } from './use-service.js';

export type ConsumablesService = ReturnType<typeof createConsumablesService>;

export function createConsumablesService(
  foundation: Foundation,
  { queue }: { readonly queue: QueueService },
) {
  return {
    ...itemService(foundation),
    ...loadService(foundation, queue),
    ...feederService(foundation, queue),
    ...useService(foundation),
  };
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

    /** The paper of a lot often comes after the lot. */
    async editLot(
      actor: Actor,
      lotId: string,
      { certificate, expectedVersion }: BodyOf<typeof consumables.editLot>,
    ): Promise<LotView> {
      return uow.write(actor, async (unit) => {
        const store = consumablesWriter(unit.tx);
        const before = await store.lot(lotId);
        if (before === null) throw notFound('lot', lotId, 'params.lotId');
        if (before.version !== expectedVersion) throw stale('lot', before, expectedVersion);
        await store.setCertificate(lotId, certificate);
        unit.append({
          type: 'lot.changed',
          ...{ subjectType: 'lot', subjectId: lotId, version: before.version + 1 },
          ...{ before: { certificate: before.certificate }, after: { certificate } },
        });
        return foundLot(store, lotId);
      });
    },
  };
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
