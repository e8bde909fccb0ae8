import { procedures } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { ProceduresService } from './service.js';

export function proceduresRoutes(app: FastifyInstance, service: ProceduresService): void {
  registerRoute(app, procedures.wpqrs, async () => service.listWpqrs());
  registerRoute(app, procedures.wpqr, async ({ params }) => service.getWpqr(params.wpqrId));
  registerRoute(app, procedures.addWpqr, async ({ actor, body }) => service.addWpqr(actor, body));
  registerRoute(app, procedures.editWpqr, async ({ actor, params, body }) =>
    service.editWpqr(actor, params.wpqrId, body),
  );
  registerRoute(app, procedures.list, async ({ query }) => service.listWpss(query.state));
  registerRoute(app, procedures.get, async ({ params }) => service.getWps(params.wpsId));
  registerRoute(app, procedures.add, async ({ actor, body }) => service.addWps(actor, body));
  registerRoute(app, procedures.edit, async ({ actor, params, body }) =>
    service.editWps(actor, params.wpsId, body),
  );
  registerRoute(app, procedures.approve, async ({ actor, params, body }) =>
    service.approveWps(actor, params.wpsId, body.expectedVersion),
  );
  registerRoute(app, procedures.revise, async ({ actor, params, body }) =>
    service.reviseWps(actor, params.wpsId, body.changeNote),
  );
  registerRoute(app, procedures.withdraw, async ({ actor, params, body }) =>
    service.withdrawWps(actor, params.wpsId, body),
  );
}
