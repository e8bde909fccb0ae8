import helmet from '@fastify/helmet';
import type { FastifyInstance } from 'fastify';

/** For a printed sheet that is opened in a tab of its own: the browser's viewer needs its own parts, nothing else. */
export const documentPolicy =
  "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'none'";

/** No inline script, nothing from elsewhere. In the shop the board runs on plain HTTP, so nothing upgrades. */
export async function securityHeaders(app: FastifyInstance): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        styleSrcAttr: ["'unsafe-inline'"],
        imgSrc: ["'self'", 'data:', 'blob:'],
        connectSrc: ["'self'"],
        objectSrc: ["'none'"],
        baseUri: ["'self'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    strictTransportSecurity: false,
    referrerPolicy: { policy: 'same-origin' },
    crossOriginEmbedderPolicy: false,
    originAgentCluster: false,
  });
  // Answers of operations stay out of every browser's memory; the tablets are shared.
  app.addHook('onRequest', async (request, reply) => {
    if (request.routeOptions.url?.startsWith('/api/') === true)
      void reply.header('cache-control', 'no-store');
  });
}
