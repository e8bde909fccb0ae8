import { sheets } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { PrintedSheet, SheetsService } from './service.js';

export function sheetsRoutes(app: FastifyInstance, service: SheetsService): void {
  registerRoute(app, sheets.wps, async ({ actor, params }, reply) =>
    shown(await service.wps(actor, params.wpsId), reply),
  );
  registerRoute(app, sheets.wpqr, async ({ actor, params }, reply) =>
    shown(await service.wpqr(actor, params.wpqrId), reply),
  );
  registerRoute(app, sheets.certificates, async ({ actor, params }, reply) =>
    shown(await service.certificates(actor, params.personId), reply),
  );
  registerRoute(app, sheets.traveler, async ({ actor, params }, reply) =>
    shown(await service.traveler(actor, params.jobId), reply),
  );
  registerRoute(app, sheets.dossier, async ({ actor, params }, reply) =>
    shown(await service.dossier(actor, params.jobId), reply),
  );
  registerRoute(app, sheets.setUp, async ({ actor, params }, reply) =>
    shown(await service.setUp(actor, params), reply),
  );
}

/** Shown in the browser's own tab; the name is what "save" proposes. */
function shown(
  { fileName, bytes }: PrintedSheet,
  reply: { header(name: string, value: string): unknown },
): Uint8Array {
  reply.header('content-disposition', `inline; filename="${fileName}"`);
  return bytes;
}
