import { qualification, testsToMake } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { QualificationService } from './service.js';

export function qualificationRoutes(app: FastifyInstance, service: QualificationService): void {
  registerRoute(app, qualification.suggestWpqr, async ({ body }) => service.suggestWpqr(body));
  registerRoute(app, qualification.suggestCertificate, async ({ body }) =>
    service.suggestCertificate(body),
  );
  registerRoute(app, qualification.touched, async ({ params }) => service.touched(params.wpsId));
  registerRoute(app, qualification.proceduresFor, async ({ params }) =>
    service.proceduresFor(params.revisionId),
  );
  registerRoute(app, qualification.coverage, async () => service.coverage());
  registerRoute(app, testsToMake.find, async ({ query }) => service.testsToMake(query));
  registerRoute(app, qualification.lapses, async () => service.lapses());
  registerRoute(app, qualification.policy, async () => service.policy());
  registerRoute(app, qualification.setPolicy, async ({ actor, params, body }) =>
    service.setPolicy(actor, params, body),
  );
}
