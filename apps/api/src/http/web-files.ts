import { existsSync } from 'node:fs';
import path from 'node:path';
import files from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { Refusal } from '../refusal.js';
import { bodyOf } from './errors.js';

const yearS = 365 * 24 * 3_600;

/** Serves the built screens; any address that is no file and no operation opens the app itself. */
export async function webFiles(app: FastifyInstance, root: string): Promise<void> {
  const built = existsSync(path.join(root, 'index.html'));
  if (built) {
    await app.register(files, {
      root,
      wildcard: false,
      cacheControl: false,
      setHeaders(reply, file) {
        void reply.header(
          'cache-control',
          file.includes(`${path.sep}immutable${path.sep}`)
            ? `public, max-age=${yearS}, immutable`
            : 'no-cache',
        );
      },
    });
  }
  app.setNotFoundHandler(async (request, reply) => {
    const asksForPage =
      request.method === 'GET' &&
      !request.url.startsWith('/api') &&
      !path.extname(request.url.split('?')[0] ?? '');
    if (built && asksForPage)
      return reply.header('cache-control', 'no-cache').sendFile('index.html');
    return reply
      .code(404)
      .send(
        bodyOf(
          new Refusal(
            'NOT_FOUND',
            `There is nothing at ${request.method} ${request.url.slice(0, 200)}.`,
          ),
          request,
        ),
      );
  });
}
