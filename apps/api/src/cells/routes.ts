import { cells } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { CellsService } from './service.js';

export function cellsRoutes(app: FastifyInstance, service: CellsService): void {
  registerRoute(app, cells.list, async () => service.list());
  registerRoute(app, cells.hours, async ({ query }) => service.hours(query));
  registerRoute(app, cells.add, async ({ actor, body }) => service.add(actor, body));
  registerRoute(app, cells.edit, async ({ actor, params, body }) =>
    service.edit(actor, params.cellId, body),
  );
  registerRoute(app, cells.setCalendar, async ({ actor, params, body }) =>
    service.setCalendar(actor, params.cellId, body),
  );
}
