import type { FastifyInstance } from 'fastify';
import { buildApp, createContext, readConfig } from '@tackboard/api';
import type { Answer, Caller } from './caller.js';
import { callsOf, type Pulled } from './operations.js';
import type { ShopBase } from './shop/base.js';
import { statementsOf, type Statement } from './statements.js';

export interface Heard {
  readonly board: readonly Statement[];
  readonly week: readonly Statement[];
  readonly pull: readonly Statement[];
  readonly pulled: Pulled;
}

/** Has the service do everything once in this process and writes down the SQL of each call. */
export async function hearStatements(
  data: string,
  timeZone: string,
  base: ShopBase,
): Promise<Heard> {
  const heard: Partial<Record<'board' | 'week' | 'pull', Statement[]>> = {};
  let pulled: Pulled | undefined;
  const config = readConfig({ TACKBOARD_DATA: data, TACKBOARD_TIME_ZONE: timeZone });
  const context = await createContext(config);
  const app = await buildApp(context);
  try {
    const manager = inProcess(app, base.manager.cookie);
    const welder = inProcess(app, base.welder.cookie);
    const calls = callsOf({ manager, welder }, base);
    // A session that was not used for a minute is written once; that belongs to no call in particular.
    await manager.ok('GET', '/api/session');
    await welder.ok('GET', '/api/session');
    heard.board = await statementsOf(async () => void (await calls.board()));
    heard.week = await statementsOf(async () => void (await calls.week()));
    heard.pull = await statementsOf(async () => {
      pulled = await calls.pull();
    });
    if (pulled === undefined) throw new Error('Nothing was pulled.');
    await calls.putDown(pulled);
    return { board: heard.board, week: heard.week, pull: heard.pull, pulled };
  } finally {
    await app.close();
    await context.close();
  }
}

function inProcess(app: FastifyInstance, cookie: string): Caller {
  async function send(
    method: 'GET' | 'POST',
    url: string,
    body?: unknown,
    key?: string,
  ): Promise<Answer> {
    const reply = await app.inject({
      ...{ method, url },
      headers: { cookie, ...(key === undefined ? {} : { 'idempotency-key': key }) },
      ...(body === undefined ? {} : { payload: body as object }),
    });
    return { status: reply.statusCode, text: reply.payload };
  }
  return {
    send,
    async ok(...call) {
      const { status, text } = await send(...call);
      if (status !== 200) throw new Error(`${call[0]} ${call[1]} answered ${status}: ${text}`);
      return text;
    },
    close: () => undefined,
  };
}
