import { orders } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { OrdersService } from './service.js';

export function ordersRoutes(app: FastifyInstance, service: OrdersService): void {
  registerRoute(app, orders.list, async ({ query }) => service.list(query));
  registerRoute(app, orders.get, async ({ params }) => service.get(params.orderId));
  registerRoute(app, orders.check, async ({ actor, body }) => service.check(actor, body));
  registerRoute(app, orders.add, async ({ actor, body }) => service.add(actor, body));
  registerRoute(app, orders.job, async ({ params }) => service.job(params.jobId));
  registerRoute(app, orders.editJob, async ({ actor, params, body }) =>
    service.editJob(actor, params.jobId, body),
  );
  registerRoute(app, orders.releaseJob, async ({ actor, params, body }) =>
    service.releaseJob(actor, params.jobId, body),
  );
  registerRoute(app, orders.cancelJob, async ({ actor, params, body }) =>
    service.cancelJob(actor, params.jobId, body),
  );
  registerRoute(app, orders.setKit, async ({ actor, params, body }) =>
    service.setKit(actor, params.jobStepId, body),
  );
  registerRoute(app, orders.readiness, async ({ params }) => service.readiness(params.jobId));
  registerRoute(app, orders.late, async () => service.late());
  registerRoute(app, orders.acknowledge, async ({ actor, params, body }) =>
    service.acknowledge(actor, params.jobId, body),
  );
  registerRoute(app, orders.split, async ({ actor, params, body }) =>
    service.split(actor, params.jobId, body),
  );
  registerRoute(app, orders.merge, async ({ actor, params, body }) =>
    service.merge(actor, params.jobId, body),
  );
  registerRoute(app, orders.closeShort, async ({ actor, params, body }) =>
    service.closeShort(actor, params.jobId, body),
  );
}
