import { createServer, request, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';

/** What becomes of one request between a tablet and the server. */
export type Fate = 'ok' | 'slow' | 'lostRequest' | 'lostAnswer' | 'fault' | 'faultAfter';

export interface BadNetwork {
  /** Where the tablets find the server through this network. */
  readonly address: string;
  /** Asked for the fate of each request; the live stream and the app's own files are asked about as well. */
  fate: () => Fate;
  /** The server may come back at another port after it was killed. */
  server: string;
  close(): Promise<void>;
}

const slowMs = 250;

/** A radio between the tablets and the server that does to each request what it is told to. */
export async function startBadNetwork(server: string): Promise<BadNetwork> {
  const network = { server, fate: (): Fate => 'ok' };
  const door = createServer((question, answer) => {
    void pass(question, answer, network).catch(() => answer.destroy());
  });
  await new Promise<void>((resolve) => door.listen(0, '127.0.0.1', resolve));
  const { port } = door.address() as AddressInfo;
  return Object.assign(network, {
    address: `http://127.0.0.1:${port}`,
    async close() {
      door.closeAllConnections();
      await new Promise((resolve) => door.close(resolve));
    },
  });
}

async function pass(
  question: IncomingMessage,
  answer: ServerResponse,
  network: Pick<BadNetwork, 'server' | 'fate'>,
): Promise<void> {
  const fate = network.fate();
  if (fate === 'lostRequest') return void answer.destroy();
  if (fate === 'fault') return fault(answer);
  if (fate === 'slow') await pause(slowMs);
  const reply = await forward(question, network.server, () => answer.destroyed);
  if (fate === 'lostAnswer') {
    // The server has done what it was asked: only its word is lost.
    reply.resume();
    return void answer.destroy();
  }
  if (fate === 'faultAfter') {
    reply.resume();
    return fault(answer);
  }
  answer.writeHead(reply.statusCode ?? 502, reply.headers);
  reply.on('error', () => answer.destroy());
  answer.on('close', () => reply.destroy());
  reply.pipe(answer);
}

function fault(answer: ServerResponse): void {
  answer.writeHead(500, { 'content-type': 'text/plain' }).end('Something broke on the way.');
}

async function forward(
  question: IncomingMessage,
  server: string,
  gone: () => boolean,
): Promise<IncomingMessage> {
  return new Promise((resolve, reject) => {
    const onward = request(
      `${server}${question.url ?? '/'}`,
      { method: question.method, headers: question.headers, agent: false },
      resolve,
    );
    onward.on('error', reject);
    question.on('close', () => {
      if (gone()) onward.destroy();
    });
    question.pipe(onward);
  });
}
