import { quality } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { QualityService } from './service.js';

export function qualityRoutes(app: FastifyInstance, service: QualityService): void {
  registerRoute(app, quality.overrides, async ({ query }) => service.overrides(query));
  registerRoute(app, quality.addOverride, async ({ actor, params, body }) =>
    service.addOverride(actor, params.jobStepId, body),
  );
  firstPieceRoutes(app, service);
  ncrRoutes(app, service);
  holdRoutes(app, service);
}

function firstPieceRoutes(app: FastifyInstance, service: QualityService): void {
  registerRoute(app, quality.firstPieceOfRun, async ({ params }) =>
    service.firstPieceOfRun(params.runId),
  );
  registerRoute(app, quality.checkFirstPiece, async ({ actor, params, body }) =>
    service.checkFirstPiece(actor, params.runId, body),
  );
  registerRoute(app, quality.signFirstPiece, async ({ actor, params, body }) =>
    service.signFirstPiece(actor, params.firstPieceId, body),
  );
  registerRoute(app, quality.firstPieces, async ({ query }) => service.firstPieces(query));
}

function ncrRoutes(app: FastifyInstance, service: QualityService): void {
  registerRoute(app, quality.ncrs, async ({ query }) => service.ncrs(query));
  registerRoute(app, quality.ncr, async ({ params }) => service.ncr(params.ncrId));
  registerRoute(app, quality.raiseNcr, async ({ actor, params, body }) =>
    service.raiseNcr(actor, params.jobStepId, body),
  );
  registerRoute(app, quality.decideNcr, async ({ actor, params, body }) =>
    service.decideNcr(actor, params.ncrId, body),
  );
  registerRoute(app, quality.inspectRework, async ({ actor, params, body }) =>
    service.inspectRework(actor, params, body),
  );
  registerRoute(app, quality.closeNcr, async ({ actor, params, body }) =>
    service.closeNcr(actor, params.ncrId, body),
  );
}

function holdRoutes(app: FastifyInstance, service: QualityService): void {
  registerRoute(app, quality.containment, async ({ query }) => service.containment(query));
  registerRoute(app, quality.quarantine, async ({ actor, body }) =>
    service.quarantine(actor, body),
  );
  registerRoute(app, quality.holds, async ({ query }) => service.holds(query));
  registerRoute(app, quality.liftHold, async ({ actor, params, body }) =>
    service.liftHold(actor, params.holdId, body),
  );
  registerRoute(app, quality.points, async ({ query }) => service.points(query));
  registerRoute(app, quality.closePoint, async ({ actor, params, body }) =>
    service.closePoint(actor, params.pointId, body),
  );
}
