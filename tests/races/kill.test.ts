import { randomUUID } from 'node:crypto';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startTool, type Tool } from '../e2e/support/tool.js';
import { testPassword } from '../support/app.js';

const rounds = 20;
const writers = 8;
/** At a different moment of the work in each round. */
const killAfterMs = (round: number) => ((round * 37) % rounds) * 15;

interface Command {
  readonly key: string;
  readonly name: string;
}

let tool: Tool;
let cookie: string;
const acknowledged: Command[] = [];
let unanswered: Command[] = [];

beforeAll(async () => {
  tool = await startTool({ empty: true });
  const answer = await fetch(`${tool.address}/api/first-run`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ code: 'M01', name: 'First manager', password: testPassword }),
  });
  cookie = answer.headers.getSetCookie()[0]?.split(';')[0] ?? '';
});
afterAll(async () => tool.stop());

async function addCustomer({ key, name }: Command): Promise<number> {
  const answer = await fetch(`${tool.address}/api/customers`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'idempotency-key': key, cookie },
    body: JSON.stringify({ name }),
  });
  await answer.text();
  return answer.status;
}

/** Adds one customer after the other until the service is gone. */
async function writeOn(round: number, writer: number): Promise<void> {
  for (let n = 0; ; n += 1) {
    const command = { key: randomUUID(), name: `Customer ${round}-${writer}-${n}` };
    try {
      expect(await addCustomer(command)).toBe(200);
      acknowledged.push(command);
    } catch (error) {
      // No answer: it may have been written or not, and only a repeat can tell.
      if (!(error instanceof TypeError)) throw error;
      unanswered.push(command);
      return;
    }
  }
}

/** What the file holds, read without the service. */
function kept() {
  const file = new Database(path.join(tool.folder, 'tackboard.sqlite'));
  try {
    return {
      integrity: file.pragma('integrity_check', { simple: true }),
      orphans: file.pragma('foreign_key_check') as unknown[],
      names: file.prepare('SELECT "name" FROM "Customer"').pluck().all() as string[],
      events: file
        .prepare(
          `SELECT json_extract("after", '$.name') FROM "Event" WHERE "subjectType" = 'customer'`,
        )
        .pluck()
        .all() as string[],
    };
  } finally {
    file.close();
  }
}

it(`loses no acknowledged write when it is killed ${rounds} times while it writes`, async () => {
  for (let round = 0; round < rounds; round += 1) {
    const before = acknowledged.length;
    const writing = Promise.all(
      Array.from({ length: writers }, async (_, at) => writeOn(round, at)),
    );
    while (acknowledged.length === before) await pause(1);
    await pause(killAfterMs(round));
    await tool.kill();
    await writing;
    expect(unanswered).toHaveLength(writers);

    const { integrity, orphans, names, events } = kept();
    expect(integrity).toBe('ok');
    expect(orphans).toEqual([]);
    const missing = acknowledged.filter(({ name }) => !names.includes(name));
    expect({ round, missing }).toEqual({ round, missing: [] });
    // A row and its event are one commit.
    expect(events.toSorted()).toEqual(names.toSorted());

    tool = await startTool({ empty: true, on: tool.folder });
    for (const command of unanswered) {
      expect(await addCustomer(command)).toBe(200);
      acknowledged.push(command);
    }
    unanswered = [];
  }
  const { names } = kept();
  expect(names.toSorted()).toEqual(acknowledged.map(({ name }) => name).toSorted());
}, 600_000);
