import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { systemActor } from '../actor.js';
import { openDatabase, type Database } from '../db/client.js';
import { migrate } from '../db/migrations.js';
import { createUnitOfWork, type UnitOfWork } from '../db/unit-of-work.js';
import { createEventStream } from './stream.js';

describe('the event log', () => {
  let folder: string;
  let database: Database;
  let uow: UnitOfWork;
  beforeAll(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'tackboard-events-'));
    const file = path.join(folder, 'tackboard.sqlite');
    await migrate(file);
    database = await openDatabase(file);
    uow = createUnitOfWork(database, { now: () => new Date('2026-10-05T05:00:00Z') });
    await write('first');
  });
  afterAll(async () => {
    await database.close();
    await rm(folder, { recursive: true, force: true });
  });

  const write = async (subjectId: string) =>
    uow.write(systemActor, async (unit) => {
      unit.append({ type: 'job.noted', subjectType: 'job', subjectId });
    });

  it.each([
    ['a change', `UPDATE "Event" SET "reason" = 'other'`],
    ['a deletion', `DELETE FROM "Event"`],
    [
      'a replacement',
      `INSERT OR REPLACE INTO "Event" ("seq", "at", "type", "subjectType", "subjectId")
       SELECT "seq", "at", 'job.forged', "subjectType", "subjectId" FROM "Event" LIMIT 1`,
    ],
  ])('is kept by the database itself from %s', async (_what, sql) => {
    const before = await database.reader.event.findMany();
    expect(before.length).toBeGreaterThan(0);
    await expect(database.writer.$executeRawUnsafe(sql)).rejects.toThrow('append-only');
    expect(await database.reader.event.findMany()).toEqual(before);
  });

  it('is read from a number on and then live, until the reader goes', async () => {
    const stream = createEventStream({ database, uow });
    const from = await stream.lastSeq();
    await write('second');
    const gone = new AbortController();
    const seen: string[] = [];
    const reading = (async () => {
      for await (const event of stream.after(from, gone.signal)) {
        seen.push(event.subjectId);
        if (event.subjectId === 'second') void write('third');
        if (event.subjectId === 'third') gone.abort();
      }
    })();
    await reading;
    expect(seen).toEqual(['second', 'third']);
    await write('fourth');
    expect(seen).toEqual(['second', 'third']);
  });

  it('ends a reader that waits for news', async () => {
    const stream = createEventStream({ database, uow });
    const gone = new AbortController();
    const next = stream.after(await stream.lastSeq(), gone.signal).next();
    await new Promise((resolve) => setTimeout(resolve, 50));
    gone.abort();
    expect(await next).toEqual({ done: true, value: undefined });
  });
});
