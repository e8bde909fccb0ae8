import { outside } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { OutsideService } from './service.js';

export function outsideRoutes(app: FastifyInstance, service: OutsideService): void {
  registerRoute(app, outside.trips, async ({ params }) => service.trips(params.jobId));
  registerRoute(app, outside.send, async ({ actor, params, body }) =>
    service.send(actor, params.jobId, body),
  );
  registerRoute(app, outside.back, async ({ actor, params, body }) =>
    service.back(actor, params.tripId, body),
  );
}
