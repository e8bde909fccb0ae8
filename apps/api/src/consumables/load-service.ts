import type { BodyOf, consumables } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { Db } from '../db/client.js';
import type { Unit } from '../db/unit-of-work.js';
import type { Foundation } from '../foundation.js';
import type { QueueService } from '../queue/service.js';
import { notFound, Refusal, refuseField } from '../refusal.js';
import { afterTaking, asWeighed } from './amounts.js';
import { consumablesReader, consumablesWriter, type LotLoadView, type LotView } from './store.js';

type Asked = Pick<QueueService, 'refusesLoad'>;

/** Lots at the cells: put on, taken off, and what hangs there now. */
export function loadService({ database, uow, newId }: Foundation, queue: Asked) {
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
      const wrong = await wrongFor(consumablesReader(database.reader), queue, { cellId, lotId });
      return uow.write(actor, async (unit) => {
        const store = consumablesWriter(unit.tx);
        if (!(await store.cellExists(cellId))) throw notFound('cell', cellId, 'params.cellId');
        if (wrong !== null) throw wrong;
        const { kind } = await foundLot(store, lotId);
        for (const former of await store.loads({ cellId, kind })) await takeOff(unit, former);
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

    async unload(
      actor: Actor,
      loadId: string,
      { leftAmount }: BodyOf<typeof consumables.unload>,
    ): Promise<LotLoadView> {
      return uow.write(actor, async (unit) => {
        const store = consumablesWriter(unit.tx);
        const load = await store.load(loadId);
        if (load === null) throw notFound('load', loadId, 'params.loadId');
        if (load.unloadedAt !== null) throw offAlready(load);
        const left = leftAmount ?? load.leftAmount;
        if (left > load.loadedAmount) throw moreThanLoaded(load, left);
        await takeOff(unit, { ...load, leftAmount: left });
        return { ...load, leftAmount: left, unloadedAt: unit.now.toISOString() };
      });
    },
  };
}

/** Why a lot is not put on under the work that is held there; a set-up or a procedure asks for another. */
async function wrongFor(
  store: ReturnType<typeof consumablesReader>,
  queue: Asked,
  { cellId, lotId }: { cellId: string; lotId: string },
): Promise<Refusal | null> {
  const lot = await store.lot(lotId);
  const item = lot && (await store.item(lot.itemId));
  if (lot === null || item === null) return null;
  const line = await queue.refusesLoad(cellId, {
    ...{ kind: lot.kind, itemId: lot.itemId, itemName: lot.itemName, unit: lot.unit },
    ...{ designation: item.designation, lotNumber: lot.number },
    ...{ certificate: lot.certificate, leftAmount: lot.leftAmount },
  });
  if (line === null) return null;
  return refuseField(
    'DOES_NOT_FIT',
    `Not put on under the job in work: ${line.text} Load another lot, or put the job down first; then the coordinator can sign for it at the pull.`,
    'body.lotId',
    lot.number,
    'a lot that the set-up and the procedure of the job in work ask for',
    { line },
  );
}

/** What is left of it goes back to its lot. */
async function takeOff(unit: Unit, load: LotLoadView): Promise<void> {
  const store = consumablesWriter(unit.tx);
  const lot = await foundLot(store, load.lotId);
  const leftAmount = asWeighed(lot.leftAmount + load.leftAmount);
  await store.endLoad(load.id, unit.now, load.leftAmount);
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

export async function foundLot(
  store: ReturnType<typeof consumablesReader>,
  id: string,
): Promise<LotView> {
  const lot = await store.lot(id);
  if (lot === null) throw notFound('lot', id, 'body.lotId');
  return lot;
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

function offAlready({ lotNumber, cellCode, unloadedAt }: LotLoadView) {
  return new Refusal(
    'NOT_NOW',
    `Lot ${lotNumber} was taken off ${cellCode} already, at ${unloadedAt}. Look at what hangs there now.`,
  );
}

function moreThanLoaded({ lotNumber, loadedAmount, unit }: LotLoadView, left: number) {
  return refuseField(
    'NOT_NOW',
    `${left} ${unit} cannot be left of lot ${lotNumber}: ${loadedAmount} ${unit} were put on. Weigh again.`,
    'body.leftAmount',
    left,
    `at most ${loadedAmount}`,
  );
}
