import type { FastifyInstance } from 'fastify';
import { buildApp, createContext, readConfig } from '@tackboard/api';
import type { Answer, Caller } from './caller.js';
import { callsOf, type Pulled } from './operations.js';
import type { ShopBase } from './shop/base.js';
import { openEars, type Statement } from './statements.js';

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
  let pulled: Pulled | undefined;
  const ears = openEars();
  const config = readConfig({ TACKBOARD_DATA: data, TACKBOARD_TIME_ZONE: timeZone });
  const context = await createContext(config);
  const app = await buildApp(context);
  try {
    const manager = inProcess(app, base.manager.cookie);
    const welder = inProcess(app, base.welder.cookie);
    const calls = callsOf({ manager, welder }, base);
    const board = await ears.during(async () => void (await calls.board()));
    const week = await ears.during(async () => void (await calls.week()));
    const pull = await ears.during(async () => {
      pulled = await calls.pull();
    });
    if (pulled === undefined) throw new Error('Nothing was pulled.');
    await calls.putDown(pulled);
    return { board, week, pull, pulled };
  } finally {
    await app.close();
    await context.close();
    ears.close();
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
