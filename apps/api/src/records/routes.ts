import { records } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import { version } from '../version.js';
import type { RecordsService } from './service.js';

export function recordsRoutes(app: FastifyInstance, service: RecordsService): void {
  registerRoute(app, records.history, async ({ params, query }) =>
    service.history(params.subjectType, params.subjectId, query.limit, query.before),
  );
  registerRoute(app, records.health, async () => {
    await service.lastSeq();
    return { ok: true as const, version, database: 'ok' as const };
  });
}
