import type { BodyOf, setUpMemory, ToolPoint } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { Foundation } from '../foundation.js';
import { notFound, Refusal } from '../refusal.js';
import { toolPointReader, toolPointWriter, type ToolPointRow } from './tool-point-store.js';

/** Knocks and checks of a robot's tool point. The tool records them; it never moves or stops a robot. */
export function createToolPoint({ database, uow, newId }: Foundation) {
  const read = toolPointReader(database.reader);

  async function write(
    actor: Actor,
    cellId: string,
    entry: { kind: 'knock' | 'check'; good: boolean | null; note: string },
  ): Promise<ToolPoint> {
    return uow.write(actor, async (unit) => {
      const store = toolPointWriter(unit.tx);
      const cellCode = await robotCode(store, cellId);
      const before = await store.entries(cellId);
      const row = { ...entry, id: newId(), cellId, at: unit.now };
      await store.add({ ...row, personId: actingPerson(actor).id });
      const after = await viewOf(store, cellId, cellCode);
      unit.append({
        type: entry.kind === 'knock' ? 'cell.knocked' : 'cell.toolPointChecked',
        ...{ subjectType: 'cell', subjectId: cellId, cellId },
        before: { open: openSince(before) !== null },
        after: { open: after.open, good: entry.good, partsSince: after.partsSince },
        reason: entry.note === '' ? null : entry.note,
        ...(entry.kind === 'check' ? { meaning: 'checked' as const } : {}),
      });
      return after;
    });
  }

  return {
    async toolPoint(cellId: string): Promise<ToolPoint> {
      const cell = await read.robot(cellId);
      if (cell === null) throw notFound('cell', cellId, 'params.cellId');
      return viewOf(read, cellId, cell.code);
    },
    knock: async (actor: Actor, cellId: string, { note }: BodyOf<typeof setUpMemory.knock>) =>
      write(actor, cellId, { kind: 'knock', good: null, note }),
    checkToolPoint: async (
      actor: Actor,
      cellId: string,
      { good, note }: BodyOf<typeof setUpMemory.checkToolPoint>,
    ) => write(actor, cellId, { kind: 'check', good, note }),
  };
}

type Store = ReturnType<typeof toolPointReader>;

async function robotCode(store: Store, cellId: string): Promise<string> {
  const cell = await store.robot(cellId);
  if (cell === null) throw notFound('cell', cellId, 'params.cellId');
  if (cell.kind === 'robot') return cell.code;
  throw new Refusal(
    'NOT_NOW',
    `${cell.code} is a booth: it has no tool point. Choose the robot cell that was knocked.`,
  );
}

async function viewOf(store: Store, cellId: string, cellCode: string): Promise<ToolPoint> {
  const entries = await store.entries(cellId);
  const knock = entries.findLast(({ kind }) => kind === 'knock');
  const good = entries.findLast(isGood);
  return {
    cellCode,
    open: openSince(entries) !== null,
    knock: knock === undefined ? null : { ...whoWhen(knock), note: knock.note },
    lastGoodCheck: good === undefined ? null : whoWhen(good),
    partsSince: await store.partsSince(cellId, good?.at ?? null),
  };
}

function whoWhen({ at, personCode }: ToolPointRow) {
  return { at: at.toISOString(), personCode };
}

function isGood({ kind, good }: Pick<ToolPointRow, 'kind' | 'good'>): boolean {
  return kind === 'check' && good === true;
}

/** Since when nobody knows whether the tool point is true: the first entry after the last good check. */
export function openSince(
  entries: readonly Pick<ToolPointRow, 'kind' | 'good' | 'at'>[],
): Date | null {
  return entries.slice(entries.findLastIndex(isGood) + 1)[0]?.at ?? null;
}
