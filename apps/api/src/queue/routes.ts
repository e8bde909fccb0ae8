import { queue } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { QueueService } from './service.js';

export function queueRoutes(app: FastifyInstance, service: QueueService): void {
  registerRoute(app, queue.board, async () => service.board());
  registerRoute(app, queue.cell, async ({ actor, params }) => service.cell(actor, params.cellId));
  registerRoute(app, queue.card, async ({ actor, params }) =>
    service.card(actor, params.jobStepId),
  );
  registerRoute(app, queue.move, async ({ actor, params, body }) =>
    service.move(actor, params.jobStepId, body),
  );
}
