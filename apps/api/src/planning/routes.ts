import { planning } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { PlanningService } from './service.js';

export function planningRoutes(app: FastifyInstance, service: PlanningService): void {
  registerRoute(app, planning.propose, async () => service.propose());
  registerRoute(app, planning.get, async ({ params }) => service.get(params.proposalId));
  registerRoute(app, planning.stop, async ({ params }) => service.stop(params.proposalId));
  registerRoute(app, planning.accept, async ({ actor, params, body }) =>
    service.accept(actor, params.proposalId, body),
  );
}
