import type { LiveEvent } from '@tackboard/contract';
import { testPassword, type TestShop } from './app.js';

/** The session cookie of a person, for clients other than the agents. */
export async function sessionCookie(shop: TestShop, who: keyof TestShop['people']) {
  const reply = await shop
    .stranger()
    .post('/api/session')
    .send({ code: shop.people[who].code, password: testPassword })
    .expect(200);
  const [cookie] = reply.headers['set-cookie'] as unknown as string[];
  return (cookie ?? '').split(';')[0] ?? '';
}

export interface LiveClient {
  readonly status: number;
  readonly contentType: string | null;
  /** What has arrived so far. */
  readonly events: readonly LiveEvent[];
  /** Waits until an event with at least this number has arrived. */
  until(seq: number): Promise<void>;
  /** Resolves when the stream has ended, from whichever side. */
  readonly ended: Promise<void>;
  close(): void;
}

/** A reader of the live stream as a browser is one. */
export async function openLive(
  shop: TestShop,
  {
    cookie,
    lastEventId,
  }: { readonly cookie?: string | undefined; readonly lastEventId?: string } = {},
): Promise<LiveClient> {
  const { port } = shop.app.server.address() as { port: number };
  const gone = new AbortController();
  const response = await fetch(`http://127.0.0.1:${port}/api/stream`, {
    signal: gone.signal,
    headers: {
      ...(cookie === undefined ? {} : { cookie }),
      ...(lastEventId === undefined ? {} : { 'last-event-id': lastEventId }),
    },
  });
  const events: LiveEvent[] = [];
  const waiting = new Set<() => void>();
  const read = async () => {
    let text = '';
    const decoder = new TextDecoder();
    for await (const chunk of response.body ?? []) {
      text += decoder.decode(chunk, { stream: true });
      const parts = text.split('\n\n');
      text = parts.pop() ?? '';
      for (const part of parts) {
        const data = part.match(/^data: (.*)$/m)?.[1];
        if (data !== undefined) events.push(JSON.parse(data) as LiveEvent);
      }
      for (const check of waiting) check();
    }
  };
  return {
    status: response.status,
    contentType: response.headers.get('content-type'),
    events,
    until: async (seq) =>
      new Promise<void>((resolve) => {
        const check = () => {
          if ((events.at(-1)?.seq ?? 0) >= seq) resolve();
        };
        waiting.add(check);
        check();
      }),
    ended: read().catch(() => undefined),
    close: () => gone.abort(),
  };
}
