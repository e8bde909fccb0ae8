import rateLimit from '@fastify/rate-limit';
import fastify, { type FastifyInstance } from 'fastify';
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import { assignmentsRoutes } from './assignments/routes.js';
import { capacityRoutes } from './capacity/routes.js';
import { cellsRoutes } from './cells/routes.js';
import { consumablesRoutes } from './consumables/routes.js';
import type { Context } from './context.js';
import { filesRoutes } from './files/routes.js';
import { frameworkErrors, installErrors } from './http/errors.js';
import { liveRoute } from './http/live.js';
import { openApi } from './http/openapi.js';
import { installOriginCheck } from './http/origin.js';
import { securityHeaders } from './http/security-headers.js';
import { installSession } from './http/session.js';
import { webFiles } from './http/web-files.js';
import { ordersRoutes } from './orders/routes.js';
import { outsideRoutes } from './outside/routes.js';
import { partsRoutes } from './parts/routes.js';
import { peopleRoutes } from './people/routes.js';
import { planningRoutes } from './planning/routes.js';
import { proceduresRoutes } from './procedures/routes.js';
import { qualificationRoutes } from './qualification/routes.js';
import { qualityRoutes } from './quality/routes.js';
import { queueRoutes } from './queue/routes.js';
import { recordsRoutes } from './records/routes.js';
import { runsRoutes } from './runs/routes.js';
import { sheetsRoutes } from './sheets/routes.js';
import { settingsRoutes } from './settings/routes.js';
import { weekRoutes } from './week/routes.js';

export interface AppOptions {
  readonly logger?: boolean;
}

/** Everything the service answers, top to bottom; it does not listen yet. */
export async function buildApp(
  context: Context,
  { logger = false }: AppOptions = {},
): Promise<FastifyInstance> {
  const app = fastify({
    logger,
    forceCloseConnections: true,
    bodyLimit: 1_048_576,
    return503OnClosing: false,
    frameworkErrors,
  });
  app.removeContentTypeParser('text/plain');
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  installErrors(app);
  await securityHeaders(app);
  await app.register(rateLimit, { max: context.config.requestsPerMin, timeWindow: '1 minute' });
  installOriginCheck(app);
  await installSession(app, context.services.people);
  app.decorate('answers', context.answers);
  openApi(app);

  const { services } = context;
  cellsRoutes(app, services.cells);
  consumablesRoutes(app, services.consumables);
  ordersRoutes(app, services.orders);
  outsideRoutes(app, services.outside);
  assignmentsRoutes(app, services.assignments);
  partsRoutes(app, services.parts);
  peopleRoutes(app, services.people);
  planningRoutes(app, services.planning);
  proceduresRoutes(app, services.procedures);
  qualificationRoutes(app, services.qualification);
  qualityRoutes(app, services.quality);
  queueRoutes(app, services.queue);
  runsRoutes(app, services.runs);
  settingsRoutes(app, services.settings);
  weekRoutes(app, services.week);
  capacityRoutes(app, services.capacity);
  recordsRoutes(app, services.records);
  sheetsRoutes(app, services.sheets);
  await filesRoutes(app, services.files);

  liveRoute(app, context.stream);
  await webFiles(app, context.config.webFolder);
  return app;
}
