import { runs, setUpMemory } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { RunsService } from './service.js';

export function runsRoutes(app: FastifyInstance, service: RunsService): void {
  registerRoute(app, runs.get, async ({ params }) => service.run(params.runId));
  registerRoute(app, runs.ofJob, async ({ params }) => service.ofJob(params.jobId));
  registerRoute(app, runs.pull, async ({ actor, params, body }) =>
    service.pull(actor, params.cellId, body),
  );
  registerRoute(app, runs.start, async ({ actor, params, body }) =>
    service.start(actor, params.runId, body),
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
  memoryRoutes(app, service);
}

function memoryRoutes(app: FastifyInstance, service: RunsService): void {
  registerRoute(app, setUpMemory.memory, async ({ params }) => service.memory(params.jobStepId));
  registerRoute(app, setUpMemory.change, async ({ actor, params, body }) =>
    service.change(actor, params.runId, body),
  );
  registerRoute(app, setUpMemory.program, async ({ actor, params, body }) =>
    service.program(actor, params.runId, body),
  );
  registerRoute(app, setUpMemory.closeOut, async ({ actor, params, body }) =>
    service.closeOut(actor, params.runId, body),
  );
  registerRoute(app, setUpMemory.toolPoint, async ({ params }) => service.toolPoint(params.cellId));
  registerRoute(app, setUpMemory.knock, async ({ actor, params, body }) =>
    service.knock(actor, params.cellId, body),
  );
  registerRoute(app, setUpMemory.checkToolPoint, async ({ actor, params, body }) =>
    service.checkToolPoint(actor, params.cellId, body),
  );
}
