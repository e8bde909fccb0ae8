import { attachRoutes, files, type FileSubjectType } from '@tackboard/contract';
import multipart from '@fastify/multipart';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import { registerUpload } from '../http/register-upload.js';
import type { FilesService } from './service.js';

const yearS = 365 * 24 * 3_600;

export async function filesRoutes(app: FastifyInstance, service: FilesService): Promise<void> {
  await app.register(multipart);
  registerUpload(app, files.upload, service, async ({ actor, query }, { incoming, name }) =>
    service.upload(actor, incoming, { name, id: query.id }),
  );
  registerRoute(app, files.of, async ({ actor, query }) =>
    service.filesOf(actor, { type: query.subjectType, id: query.subjectId }),
  );
  registerRoute(app, files.content, async ({ actor, params }, reply) => {
    const { file, stream } = await service.content(actor, params.fileId);
    // An id never gets other content. Whoever signs in after somebody else asks again: the tablets are shared.
    reply.header('cache-control', `private, max-age=${yearS}, immutable`);
    reply.header('vary', 'cookie');
    reply.header('content-type', file.media);
    reply.header('content-length', String(file.bytes));
    reply.header('content-disposition', disposition(file.name));
    reply.header('content-security-policy', filePolicy(file.media));
    return stream;
  });
  for (const [type, route] of Object.entries(attachRoutes))
    registerRoute(app, route, async ({ actor, params, body }) =>
      service.attach(actor, { type: type as FileSubjectType, id: params.subjectId }, body.fileId),
    );
}

/** A browser's PDF viewer does not open inside a sandbox; a picture needs nothing at all. */
function filePolicy(media: string): string {
  return media === 'application/pdf'
    ? "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'none'"
    : "default-src 'none'; sandbox; frame-ancestors 'none'";
}

/** RFC 6266: the plain name for old readers, the whole one encoded as RFC 8187 asks. */
function disposition(name: string): string {
  const plain = name.replace(/[^\w. -]/g, '_');
  const whole = encodeURIComponent(name).replace(
    /['()*]/g,
    (one) => `%${one.charCodeAt(0).toString(16).toUpperCase()}`,
  );
  return `inline; filename="${plain}"; filename*=UTF-8''${whole}`;
}
