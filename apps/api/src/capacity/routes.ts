import { capacity } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { CapacityService } from './service.js';

export function capacityRoutes(app: FastifyInstance, service: CapacityService): void {
  registerRoute(app, capacity.get, async () => service.capacity());
  registerRoute(app, capacity.takt, async ({ query }) => service.takt(query));
}
