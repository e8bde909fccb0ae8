import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { systemActor } from '../actor.js';
import type { NewEvent } from '../events/event.js';
import { openDatabase, type Database } from './client.js';
import { migrate } from './migrations.js';
import { createUnitOfWork, type Unit, type UnitOfWork } from './unit-of-work.js';

const now = new Date('2026-10-05T05:00:00Z');

function noted(subjectId: string): NewEvent {
  return { type: 'job.noted', subjectType: 'job', subjectId };
}

describe('the unit of work', () => {
  let folder: string;
  let database: Database;
  let uow: UnitOfWork;
  beforeAll(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'tackboard-unit-'));
    const file = path.join(folder, 'tackboard.sqlite');
    await migrate(file);
    database = await openDatabase(file);
  });
  beforeEach(() => {
    uow = createUnitOfWork(database, { now: () => now });
  });
  afterAll(async () => {
    await database.close();
    await rm(folder, { recursive: true, force: true });
  });

  const addCustomer = async (unit: Unit, id: string) =>
    unit.tx.customer.create({ data: { id, name: `Customer ${id}`, createdAt: now } });
  const customer = async (id: string) => database.reader.customer.findUnique({ where: { id } });
  const eventsOf = async (subjectId: string) =>
    database.reader.event.findMany({ where: { subjectId } });

  it('commits the row and its event together', async () => {
    const answer = await uow.write(systemActor, async (unit) => {
      await addCustomer(unit, 'together');
      unit.append(noted('together'));
      return 'answer';
    });
    expect(answer).toBe('answer');
    expect(await customer('together')).not.toBeNull();
    expect(await eventsOf('together')).toMatchObject([{ type: 'job.noted', at: now }]);
  });

  it('leaves nothing behind and calls nobody when the work fails', async () => {
    const after = vi.fn();
    const listener = vi.fn();
    uow.onCommit(listener);
    const failing = uow.write(systemActor, async (unit) => {
      await addCustomer(unit, 'rolled-back');
      unit.append(noted('rolled-back'));
      unit.afterCommit(after);
      throw new Error('no');
    });
    await expect(failing).rejects.toThrow('no');
    expect(await customer('rolled-back')).toBeNull();
    expect(await eventsOf('rolled-back')).toEqual([]);
    expect(after).not.toHaveBeenCalled();
    expect(listener).not.toHaveBeenCalled();
  });

  it('takes the row back when its event cannot be written', async () => {
    const failing = uow.write(systemActor, async (unit) => {
      await addCustomer(unit, 'no-event');
      unit.append({ ...noted('no-event'), type: undefined as unknown as string });
    });
    await expect(failing).rejects.toThrow();
    expect(await customer('no-event')).toBeNull();
  });

  it('calls back after the commit, when the row can be read', async () => {
    const seen: Promise<unknown>[] = [];
    await uow.write(systemActor, async (unit) => {
      unit.afterCommit(() => seen.push(customer('called-back')));
      await addCustomer(unit, 'called-back');
    });
    expect(await Promise.all(seen)).toMatchObject([{ id: 'called-back' }]);
  });

  it('lets what follows a commit begin a write of its own', async () => {
    const following: Promise<void>[] = [];
    const write = async (id: string) =>
      uow.write(systemActor, async (unit) => unit.append(noted(id)));
    const stop = uow.onCommit(() => {
      stop();
      following.push(write('after-listening'));
    });
    await uow.write(systemActor, async (unit) => {
      unit.append(noted('first'));
      unit.afterCommit(() => following.push(write('after-commit')));
    });
    await Promise.all(following);
    expect(await eventsOf('after-commit')).toHaveLength(1);
    expect(await eventsOf('after-listening')).toHaveLength(1);
  });

  it('refuses a unit that has ended', async () => {
    let kept: Unit | undefined;
    await uow.write(systemActor, async (unit) => {
      kept = unit;
    });
    expect(() => kept?.tx).toThrow('has ended');
    expect(() => kept?.append(noted('late'))).toThrow('has ended');
    expect(() => kept?.afterCommit(() => undefined)).toThrow('has ended');
  });

  it('refuses a write inside a write instead of waiting for itself', async () => {
    const nested = uow.write(systemActor, async () => uow.write(systemActor, async () => 'never'));
    await expect(nested).rejects.toThrow('A write inside a write');
  });

  it('shows readers nothing before it is committed', async () => {
    let during: unknown = 'not asked';
    await uow.write(systemActor, async (unit) => {
      await addCustomer(unit, 'unseen');
      during = await customer('unseen');
    });
    expect(during).toBeNull();
    expect(await customer('unseen')).not.toBeNull();
  });

  it('gives readers no way to write', async () => {
    const writing = database.reader.customer.create({
      data: { id: 'by-reader', name: 'By reader', createdAt: now },
    });
    await expect(writing).rejects.toThrow();
  });

  it('lets three hundred simultaneous writes all land, in the order in which they came', async () => {
    const numbers = Array.from({ length: 300 }, (_, n) => n);
    await Promise.all(
      numbers.map(async (n) =>
        uow.write(systemActor, async (unit) => {
          unit.append({ ...noted('many'), reason: String(n) });
        }),
      ),
    );
    const rows = await database.reader.event.findMany({
      where: { subjectId: 'many' },
      orderBy: { seq: 'asc' },
    });
    expect(rows.map((row) => row.reason)).toEqual(numbers.map(String));
  });

  it('goes on after a failure', async () => {
    const results = await Promise.allSettled(
      [1, 2, 3].map(async (n) =>
        uow.write(systemActor, async () => {
          if (n === 2) throw new Error('second');
          return n;
        }),
      ),
    );
    expect(results.map((result) => result.status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
  });

  it('keeps a committed write committed when a listener throws', async () => {
    const warnings: Error[] = [];
    const hear = (warning: Error) => warnings.push(warning);
    process.on('warning', hear);
    const next = vi.fn();
    uow.onCommit(() => {
      throw new Error('a broken listener');
    });
    uow.onCommit(next);
    await uow.write(systemActor, async (unit) => {
      unit.afterCommit(() => {
        throw new Error('a broken afterthought');
      });
      unit.append(noted('listened'));
    });
    await new Promise((resolve) => setImmediate(resolve));
    process.off('warning', hear);
    expect(await eventsOf('listened')).toHaveLength(1);
    expect(next).toHaveBeenCalledTimes(1);
    expect(warnings.map((warning) => warning.message)).toEqual([
      'a broken afterthought',
      'a broken listener',
    ]);
  });

  it('stores the answer of a command with the write, and gives it to a repeat', async () => {
    const command = { key: 'someone:a-command', routeId: 'note', digest: 'd1' };
    const act = vi.fn(async (unit: Unit) => {
      unit.append(noted('once'));
      return { n: 1 };
    });
    expect(await uow.write({ ...systemActor, command }, act)).toEqual({ n: 1 });
    expect(await uow.write({ ...systemActor, command }, act)).toEqual({ n: 1 });
    expect(act).toHaveBeenCalledTimes(1);
    const other = uow.write({ ...systemActor, command: { ...command, digest: 'd2' } }, act);
    await expect(other).rejects.toMatchObject({ code: 'DUPLICATE' });
  });
});
