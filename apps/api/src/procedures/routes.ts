import { procedures, wpsInUse } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { ProceduresService } from './service.js';

export function proceduresRoutes(app: FastifyInstance, service: ProceduresService): void {
  registerRoute(app, procedures.wpqrs, async () => service.wpqrs());
  registerRoute(app, procedures.wpqr, async ({ params }) => service.wpqr(params.wpqrId));
  registerRoute(app, procedures.addWpqr, async ({ actor, body }) => service.addWpqr(actor, body));
  registerRoute(app, procedures.editWpqr, async ({ actor, params, body }) =>
    service.editWpqr(actor, params.wpqrId, body),
  );
  registerRoute(app, procedures.list, async ({ query }) => service.list(query));
  registerRoute(app, procedures.get, async ({ params }) => service.get(params.wpsId));
  registerRoute(app, wpsInUse.read, async ({ params }) => service.inUse(params.wpsId));
  registerRoute(app, procedures.add, async ({ actor, body }) => service.add(actor, body));
  registerRoute(app, procedures.edit, async ({ actor, params, body }) =>
    service.edit(actor, params.wpsId, body),
  );
  registerRoute(app, procedures.approve, async ({ actor, params, body }) =>
    service.approve(actor, params.wpsId, body),
  );
  registerRoute(app, procedures.revise, async ({ actor, params, body }) =>
    service.revise(actor, params.wpsId, body),
  );
  registerRoute(app, procedures.withdraw, async ({ actor, params, body }) =>
    service.withdraw(actor, params.wpsId, body),
  );
}
