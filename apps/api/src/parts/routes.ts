import { parts } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { PartsService } from './service.js';

export function partsRoutes(app: FastifyInstance, service: PartsService): void {
  customerRoutes(app, service);
  partRoutes(app, service);
  revisionRoutes(app, service);
  toolingRoutes(app, service);
}

function customerRoutes(app: FastifyInstance, service: PartsService): void {
  registerRoute(app, parts.customers, async ({ query }) => service.customers(query));
  registerRoute(app, parts.addCustomer, async ({ actor, body }) =>
    service.addCustomer(actor, body),
  );
  registerRoute(app, parts.editCustomer, async ({ actor, params, body }) =>
    service.editCustomer(actor, params.customerId, body),
  );
}

function partRoutes(app: FastifyInstance, service: PartsService): void {
  registerRoute(app, parts.list, async ({ query }) => service.list(query));
  registerRoute(app, parts.get, async ({ params }) => service.get(params.partId));
  registerRoute(app, parts.add, async ({ actor, body }) => service.add(actor, body));
  registerRoute(app, parts.edit, async ({ actor, params, body }) =>
    service.edit(actor, params.partId, body),
  );
  registerRoute(app, parts.addAlias, async ({ actor, params, body }) =>
    service.addAlias(actor, params.partId, body),
  );
  registerRoute(app, parts.removeAlias, async ({ actor, params }) =>
    service.removeAlias(actor, params.partId, params.aliasId),
  );
}

function revisionRoutes(app: FastifyInstance, service: PartsService): void {
  registerRoute(app, parts.addRevision, async ({ actor, params, body }) =>
    service.addRevision(actor, params.partId, body),
  );
  registerRoute(app, parts.revision, async ({ params }) => service.revision(params.revisionId));
  registerRoute(app, parts.setWelds, async ({ actor, params, body }) =>
    service.setWelds(actor, params.revisionId, body),
  );
  registerRoute(app, parts.setSteps, async ({ actor, params, body }) =>
    service.setSteps(actor, params.revisionId, body),
  );
  registerRoute(app, parts.releaseRevision, async ({ actor, params, body }) =>
    service.releaseRevision(actor, params.revisionId, body),
  );
  registerRoute(app, parts.freezeSetUp, async ({ actor, params, body }) =>
    service.freezeSetUp(actor, params.stepId, body),
  );
}

function toolingRoutes(app: FastifyInstance, service: PartsService): void {
  registerRoute(app, parts.fixtures, async () => service.fixtures());
  registerRoute(app, parts.addFixture, async ({ actor, body }) => service.addFixture(actor, body));
  registerRoute(app, parts.editFixture, async ({ actor, params, body }) =>
    service.editFixture(actor, params.fixtureId, body),
  );
  registerRoute(app, parts.programs, async () => service.programs());
  registerRoute(app, parts.addProgram, async ({ actor, body }) => service.addProgram(actor, body));
}
