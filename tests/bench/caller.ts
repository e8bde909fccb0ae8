import { Agent, request } from 'node:http';

export interface Answer {
  readonly status: number;
  readonly text: string;
}

/** One signed-in client that keeps its connection open. */
export function caller(port: number, cookie: string) {
  const agent = new Agent({ keepAlive: true });
  async function send(
    method: 'GET' | 'POST',
    path: string,
    body?: unknown,
    key?: string,
  ): Promise<Answer> {
    const payload = body === undefined ? undefined : JSON.stringify(body);
    return new Promise((resolve, reject) => {
      const headers = {
        cookie,
        ...(payload === undefined ? {} : { 'content-type': 'application/json' }),
        ...(key === undefined ? {} : { 'idempotency-key': key }),
      };
      const call = request({ agent, host: '127.0.0.1', port, method, path, headers }, (reply) => {
        const chunks: Buffer[] = [];
        reply.on('data', (chunk: Buffer) => chunks.push(chunk));
        reply.on('error', reject);
        reply.on('end', () =>
          resolve({ status: reply.statusCode ?? 0, text: Buffer.concat(chunks).toString() }),
        );
      });
      call.on('error', reject);
      call.end(payload);
    });
  }
  return {
    send,
    /** As `send`, but anything other than success throws. */
    async ok(...call: Parameters<typeof send>): Promise<string> {
      const { status, text } = await send(...call);
      if (status !== 200) throw new Error(`${call[0]} ${call[1]} answered ${status}: ${text}`);
      return text;
    },
    close: () => agent.destroy(),
  };
}

export type Caller = ReturnType<typeof caller>;
