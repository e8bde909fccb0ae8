import { quality } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { QualityService } from './service.js';

export function qualityRoutes(app: FastifyInstance, service: QualityService): void {
  registerRoute(app, quality.overrides, async ({ query }) => service.overrides(query));
  registerRoute(app, quality.addOverride, async ({ actor, params, body }) =>
    service.addOverride(actor, params.jobStepId, body),
  );
}
