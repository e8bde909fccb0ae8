import type { LiveEvent } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import { eventReader } from './store.js';

const pageSize = 500;

export type EventStream = ReturnType<typeof createEventStream>;

/**
 * The live stream reads the same table that the writes fill: first what came after `seq`, then whatever is
 * committed from then on, each event once and in order.
 */
export function createEventStream({ database, uow }: Pick<Foundation, 'database' | 'uow'>) {
  const read = eventReader(database.reader);
  return {
    lastSeq: read.lastSeq,
    async *after(seq: number, signal: AbortSignal): AsyncGenerator<LiveEvent> {
      let last = seq;
      let wake: () => void = () => undefined;
      let news = true;
      const ring = () => {
        news = true;
        wake();
      };
      const stop = uow.onCommit(ring);
      signal.addEventListener('abort', ring);
      try {
        while (!signal.aborted) {
          news = false;
          const page = await read.after(last, pageSize);
          for (const event of page) {
            last = event.seq;
            yield event;
          }
          if (page.length === pageSize) continue;
          if (!news)
            await new Promise<void>((resolve) => {
              wake = resolve;
            });
        }
      } finally {
        stop();
        signal.removeEventListener('abort', ring);
      }
    },
  };
}
