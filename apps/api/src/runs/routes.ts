import { runs } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { RunsService } from './service.js';

export function runsRoutes(app: FastifyInstance, service: RunsService): void {
  registerRoute(app, runs.get, async ({ params }) => service.run(params.runId));
  registerRoute(app, runs.ofJob, async ({ params }) => service.ofJob(params.jobId));
  registerRoute(app, runs.pull, async ({ actor, params, body }) =>
    service.pull(actor, params.cellId, body),
  );
  registerRoute(app, runs.count, async ({ actor, params, body }) =>
    service.count(actor, params.runId, body),
  );
  registerRoute(app, runs.stop, async ({ actor, params, body }) =>
    service.stop(actor, params.runId, body),
  );
  registerRoute(app, runs.resume, async ({ actor, params, body }) =>
    service.resume(actor, params.runId, body),
  );
  registerRoute(app, runs.read, async ({ actor, params, body }) =>
    service.read(actor, params.runId, body),
  );
  registerRoute(app, runs.note, async ({ actor, params, body }) =>
    service.note(actor, params.runId, body),
  );
  registerRoute(app, runs.handOver, async ({ actor, params, body }) =>
    service.handOver(actor, params.runId, body),
  );
  registerRoute(app, runs.putDown, async ({ actor, params, body }) =>
    service.putDown(actor, params.runId, body),
  );
}
