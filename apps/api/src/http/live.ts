import { liveStream } from '@tackboard/contract';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { EventStream } from '../events/stream.js';
import { Refusal } from '../refusal.js';
import { enforce } from './register-route.js';

const keepAliveMs = 20_000;
const perCaller = 6;

/** Server-sent events: what happened after the last number the client saw, then live. */
export function liveRoute(app: FastifyInstance, stream: EventStream): void {
  const open = new Map<string, number>();

  app.get(
    liveStream.path,
    {
      exposeHeadRoute: false,
      preValidation: async (request) => {
        enforce(liveStream, request);
      },
    },
    async (request, reply) => {
      const caller = request.actor.sessionId ?? request.actor.tablet?.id ?? request.ip;
      const count = open.get(caller) ?? 0;
      if (count >= perCaller)
        throw new Refusal(
          'TOO_MANY_ATTEMPTS',
          `This device has ${perCaller} live screens open already. Close one of them.`,
        );
      open.set(caller, count + 1);
      const gone = new AbortController();
      const keepAlive = setInterval(() => reply.raw.write(': still here\n\n'), keepAliveMs);
      request.raw.once('close', () => {
        clearInterval(keepAlive);
        gone.abort();
        const left = (open.get(caller) ?? 1) - 1;
        if (left > 0) open.set(caller, left);
        else open.delete(caller);
      });
      const last = await stream.lastSeq();
      // A number ahead of the log comes from before a copy was restored; waiting for it would be silence.
      const from = Math.min(lastSeen(request) ?? last, last);
      reply.hijack();
      for (const [name, value] of Object.entries(reply.getHeaders()))
        if (value !== undefined) reply.raw.setHeader(name, value);
      reply.raw.writeHead(200, {
        'content-type': 'text/event-stream',
        'cache-control': 'no-store',
        'x-accel-buffering': 'no',
      });
      reply.raw.write('retry: 1000\n\n');
      try {
        for await (const event of stream.after(from, gone.signal)) {
          const fits = reply.raw.write(`id: ${event.seq}\ndata: ${JSON.stringify(event)}\n\n`);
          if (!fits) await drained(reply.raw, gone.signal);
        }
      } finally {
        // Whatever went wrong, the client hears that the stream is over and comes back.
        reply.raw.end();
      }
    },
  );
}

async function drained(out: NodeJS.EventEmitter, signal: AbortSignal): Promise<void> {
  await new Promise<void>((resolve) => {
    const done = () => {
      out.off('drain', done);
      signal.removeEventListener('abort', done);
      resolve();
    };
    out.once('drain', done);
    signal.addEventListener('abort', done);
  });
}

function lastSeen(request: FastifyRequest): number | null {
  const given = request.headers['last-event-id'] ?? (request.query as { after?: string }).after;
  if (given === undefined) return null;
  if (typeof given !== 'string' || !/^\d{1,15}$/.test(given)) {
    throw new Refusal('INVALID', 'The last event seen must be given by its number.', {
      fields: [
        {
          field: 'query.after',
          given: String(given).slice(0, 200),
          allowed: 'a whole number, 0 or more',
        },
      ],
    });
  }
  return Number(given);
}
