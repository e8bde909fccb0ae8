import {
  refusals,
  type FieldRefusal,
  type RefusalCode,
  type RefusalReply,
} from '@tackboard/contract';
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import { Refusal } from '../refusal.js';

/** Every way a request can fail ends here and answers in one shape; nothing a caller sends answers 500. */
export function installErrors(app: FastifyInstance): void {
  app.setErrorHandler((error: FastifyError, request, reply) => {
    const refusal = toRefusal(error, request);
    if (refusal.code === 'INTERNAL') request.log.error(error);
    void reply.code(refusals[refusal.code]);
    if (isOpenedAsPage(request))
      return reply.type('text/plain; charset=utf-8').send(refusal.message);
    return reply.send(bodyOf(refusal, request));
  });
}

/** A printed sheet opened from a link: the person reads the answer itself, no screen stands between. */
function isOpenedAsPage({ headers, routeOptions }: FastifyRequest): boolean {
  const { route } = routeOptions.config;
  return route?.media !== undefined && (headers.accept ?? '').includes('text/html');
}

/** Addresses that cannot be read at all never reach a route. */
export function frameworkErrors(
  error: FastifyError,
  request: FastifyRequest,
  reply: FastifyReply,
): void {
  const refusal = new Refusal(
    'INVALID',
    `The address cannot be read (${error.code}). Check it and try again.`,
  );
  void reply.code(refusals.INVALID).send(bodyOf(refusal, request));
}

export function bodyOf(refusal: Refusal, request: FastifyRequest): RefusalReply {
  return {
    code: refusal.code,
    message: refusal.message,
    fields: [...refusal.fields],
    current: refusal.current,
    requestId: request.id,
  };
}

const codeOfStatus: Readonly<Record<number, RefusalCode>> = {
  400: 'INVALID',
  404: 'NOT_FOUND',
  413: 'TOO_LARGE',
  415: 'WRONG_MEDIA_TYPE',
  429: 'TOO_MANY_ATTEMPTS',
};

const wordsOfCode: Readonly<Partial<Record<RefusalCode, string>>> = {
  INVALID:
    'The request could not be read: its body must be valid JSON. Check it and send it again.',
  TOO_LARGE: 'What was sent is larger than 1 MB. Send less at once.',
  WRONG_MEDIA_TYPE: 'The body must be JSON, sent as application/json.',
  TOO_MANY_ATTEMPTS:
    'Too many requests from this device within a minute. Wait a minute and try again.',
};

function toRefusal(error: FastifyError, request: FastifyRequest): Refusal {
  if (error instanceof Refusal) return error;
  if (hasZodFastifySchemaValidationErrors(error)) {
    const place = error.validationContext ?? 'body';
    const found = error.validation.map((issue) =>
      fieldOf(place, issue.instancePath, issue.message ?? 'another value', request),
    );
    return new Refusal('INVALID', sentence(found), { fields: found.map(({ field }) => field) });
  }
  if (databaseCode(error) === 'P2003')
    return new Refusal(
      'NOT_FOUND',
      'Something this points to is not on file any more. Load the page again and choose anew.',
    );
  if (databaseCode(error) === 'P2002')
    return new Refusal(
      'DUPLICATE',
      'This is on file already. Look for it, or choose another number or name.',
    );
  const code = error.statusCode === undefined ? undefined : codeOfStatus[error.statusCode];
  if (code !== undefined) return new Refusal(code, wordsOfCode[code] ?? error.message);
  return new Refusal(
    'INTERNAL',
    'Something went wrong here, and nothing was changed. Try again; if it comes back, tell the office the request number.',
  );
}

/** Never said back, not even to the one who typed it. */
const secrets: ReadonlySet<string> = new Set(['password', 'oldPassword', 'newPassword', 'pin']);

interface FoundField {
  readonly field: FieldRefusal;
  /** What was found there, in words. */
  readonly words: string;
}

function fieldOf(
  place: string,
  instancePath: string,
  allowed: string,
  request: FastifyRequest,
): FoundField {
  const keys = instancePath.split('/').filter((key) => key !== '');
  const root =
    place === 'querystring' ? request.query : place === 'params' ? request.params : request.body;
  const name = [place === 'querystring' ? 'query' : place, ...keys].join('.');
  const value = keys.reduce<unknown>(
    (holder, key) =>
      holder !== null && typeof holder === 'object'
        ? (holder as Record<string, unknown>)[key]
        : undefined,
    root,
  );
  // The whole of an input may hold a secret too.
  const hidden = keys.length === 0 || keys.some((key) => secrets.has(key));
  const given = hidden ? null : shown(value);
  const words =
    value === undefined
      ? 'is missing'
      : given === null
        ? 'cannot be taken'
        : `is ${JSON.stringify(given)}`;
  return { field: { field: name, given, allowed }, words: `${name} ${words}: ${allowed}` };
}

function shown(value: unknown): string | null {
  if (value === undefined) return null;
  return (typeof value === 'string' ? value : JSON.stringify(value)).slice(0, 200);
}

function sentence(found: readonly FoundField[]): string {
  const lines = found.slice(0, 5).map(({ words }) => words);
  return `${lines.join('; ')}. Correct it and send it again.`;
}

function databaseCode(error: unknown): unknown {
  return typeof error === 'object' && error !== null && 'code' in error ? error.code : undefined;
}
