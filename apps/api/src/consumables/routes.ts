import { consumables } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { ConsumablesService } from './service.js';

export function consumablesRoutes(app: FastifyInstance, service: ConsumablesService): void {
  registerRoute(app, consumables.items, async () => await service.items());
  registerRoute(
    app,
    consumables.addItem,
    async ({ actor, body }) => await service.addItem(actor, body),
  );
  registerRoute(app, consumables.lots, async () => await service.lots());
  registerRoute(
    app,
    consumables.addLot,
    async ({ actor, body }) => await service.addLot(actor, body),
  );
  registerRoute(app, consumables.loads, async () => await service.loads());
  registerRoute(
    app,
    consumables.load,
    async ({ actor, params, body }) => await service.load(actor, params.cellId, body),
  );
}
