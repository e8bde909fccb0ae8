import { assignments } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { AssignmentsService } from './service.js';

export function assignmentsRoutes(app: FastifyInstance, service: AssignmentsService): void {
  registerRoute(app, assignments.list, async ({ query }) => service.list(query));
  registerRoute(app, assignments.edit, async ({ actor, params, body }) =>
    service.edit(actor, params.assignmentId, body),
  );
  registerRoute(app, assignments.clear, async ({ actor, params, body }) =>
    service.clear(actor, params.assignmentId, body),
  );
}
