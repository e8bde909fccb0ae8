import { consumables } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { ConsumablesService } from './service.js';

export function consumablesRoutes(app: FastifyInstance, service: ConsumablesService): void {
  registerRoute(app, consumables.items, async () => service.items());
  registerRoute(app, consumables.addItem, async ({ actor, body }) => service.addItem(actor, body));
  registerRoute(app, consumables.lots, async () => service.lots());
  registerRoute(app, consumables.addLot, async ({ actor, body }) => service.addLot(actor, body));
  registerRoute(app, consumables.editLot, async ({ actor, params, body }) =>
    service.editLot(actor, params.lotId, body),
  );
  registerRoute(app, consumables.loads, async () => service.loads());
  registerRoute(app, consumables.load, async ({ actor, params, body }) =>
    service.load(actor, params.cellId, body),
  );
  registerRoute(app, consumables.unload, async ({ actor, params, body }) =>
    service.unload(actor, params.loadId, body),
  );
  registerRoute(app, consumables.feeder, async ({ params }) => service.feeder(params.cellId));
  registerRoute(app, consumables.lotsOfJob, async ({ params }) => service.lotsOfJob(params.jobId));
  registerRoute(app, consumables.jobsOfLot, async ({ params }) => service.jobsOfLot(params.lotId));
}
