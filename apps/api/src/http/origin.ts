import type { FastifyInstance } from 'fastify';
import { Refusal } from '../refusal.js';

const safeMethods = new Set(['GET', 'HEAD', 'OPTIONS']);
const sameSite = new Set(['same-origin', 'none']);

/** Writes are taken from this address's own pages only; a browser always says where a write comes from. */
export function installOriginCheck(app: FastifyInstance): void {
  app.addHook('onRequest', async (request) => {
    if (safeMethods.has(request.method)) return;
    const { origin, host, 'sec-fetch-site': site } = request.headers;
    const foreign =
      origin === undefined
        ? site !== undefined && !sameSite.has(String(site))
        : hostOf(origin) !== host;
    if (foreign)
      throw new Refusal(
        'FOREIGN_ORIGIN',
        'This change came from a page of another address and was not made. Open the board itself and try again.',
      );
  });
}

function hostOf(origin: string): string | null {
  return URL.canParse(origin) ? new URL(origin).host : null;
}
