import cookie from '@fastify/cookie';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { Actor } from '../actor.js';
import type { PeopleService } from '../people/service.js';

declare module 'fastify' {
  interface FastifyRequest {
    actor: Actor;
  }
}

const sessionCookie = 'tackboard_session';
const tabletCookie = 'tackboard_tablet';
const readingMethods: ReadonlySet<string> = new Set(['GET', 'HEAD']);
const yearS = 365 * 24 * 3600;

/** Finds out who asks before anything else looks at the request. */
export async function installSession(
  app: FastifyInstance,
  people: Pick<PeopleService, 'whoIs'>,
): Promise<void> {
  await app.register(cookie);
  app.decorateRequest('actor', null as unknown as Actor);
  app.addHook('onRequest', async (request) => {
    // Files are the same for everybody. The address as sent may spell the same operation in another way.
    if (request.routeOptions.url?.startsWith('/api/') !== true) return;
    const found = await people.whoIs(
      request.cookies[sessionCookie] ?? null,
      request.cookies[tabletCookie] ?? null,
      { acting: !readingMethods.has(request.method) },
    );
    request.actor = { ...found, requestId: request.id, command: null };
  });
}

function options(request: FastifyRequest) {
  return {
    path: '/',
    httpOnly: true,
    sameSite: 'strict',
    secure: request.protocol === 'https',
  } as const;
}

export function keepSession(
  reply: Pick<FastifyReply, 'setCookie'>,
  request: FastifyRequest,
  token: string,
): void {
  reply.setCookie(sessionCookie, token, options(request));
}

export function dropSession(
  reply: Pick<FastifyReply, 'clearCookie'>,
  request: FastifyRequest,
): void {
  reply.clearCookie(sessionCookie, options(request));
}

export function keepTablet(
  reply: Pick<FastifyReply, 'setCookie'>,
  request: FastifyRequest,
  token: string,
): void {
  reply.setCookie(tabletCookie, token, { ...options(request), maxAge: yearS });
}
