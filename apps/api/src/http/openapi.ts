import { refusals, RefusalReply, type RefusalCode, type Route } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { version } from '../version.js';
import { docsPage } from './docs-page.js';
import { refusalsOf } from './register-route.js';

/** The document at `/api/openapi.json` and the page at `/api/docs`, both made from the routes that were registered. */
export function openApi(app: FastifyInstance): void {
  const routes: Route[] = [];
  app.addHook('onRoute', ({ config, url, method }) => {
    const route = config?.route;
    // HEAD comes with every GET; whatever else answers below /api without a rule does not boot.
    if (route !== undefined) {
      if (method !== 'HEAD') routes.push(route);
    } else if (url.startsWith('/api/') && !plainDoors.has(url)) {
      throw new Error(
        `${String(method)} ${url} has no route of the contract behind it: no access rule, no reply schema.`,
      );
    }
  });
  let document: object | undefined;
  const made = () => (document ??= documentOf(routes));
  app.get('/api/openapi.json', async (_request, reply) => reply.send(made()));
  app.get('/api/docs', async (_request, reply) =>
    reply.type('text/html; charset=utf-8').send(docsPage(routes)),
  );
}

/** The doors that are no JSON operation; each enforces its own rule. */
const plainDoors: ReadonlySet<string> = new Set([
  '/api/openapi.json',
  '/api/docs',
  '/api/stream',
  '/api/week.csv',
]);

function documentOf(routes: readonly Route[]): object {
  const paths: Record<string, Record<string, object>> = {};
  for (const route of routes) {
    const path = route.path.replace(/:(\w+)/g, '{$1}');
    paths[path] = { ...paths[path], [route.method.toLowerCase()]: operationOf(route) };
  }
  return {
    openapi: '3.1.0',
    info: {
      title: 'Tackboard',
      version,
      description:
        'A weld job board for a small fabrication shop. It informs and records; it never starts or signals a machine.',
    },
    paths,
    components: {
      schemas: { Refusal: schemaOf(RefusalReply, 'output') },
      securitySchemes: {
        session: { type: 'apiKey', in: 'cookie', name: 'tackboard_session' },
        tablet: { type: 'apiKey', in: 'cookie', name: 'tackboard_tablet' },
      },
    },
  };
}

function operationOf(route: Route): object {
  return {
    operationId: route.id,
    summary: route.summary,
    tags: [route.area],
    security: securityOf(route),
    'x-access': route.access,
    parameters: [
      ...parametersOf(route.params, 'path'),
      ...parametersOf(route.query, 'query'),
      ...(route.method === 'GET' ? [] : [idempotencyKey]),
    ],
    ...bodyOf(route),
    responses: {
      200: {
        description: 'Done',
        content: answerOf(route),
      },
      ...refusalResponses(route),
    },
  };
}

function bodyOf({ body, takesFile }: Route): object {
  if (takesFile === true) {
    const file = { type: 'string', format: 'binary' };
    const schema = { type: 'object', required: ['file'], properties: { file } };
    return { requestBody: { required: true, content: { 'multipart/form-data': { schema } } } };
  }
  if (body === undefined) return {};
  const content = { 'application/json': { schema: schemaOf(body, 'input') } };
  return { requestBody: { required: true, content } };
}

function answerOf({ media, reply }: Route): object {
  return media === undefined
    ? { 'application/json': { schema: schemaOf(reply, 'output') } }
    : { [media]: { schema: { type: 'string', format: 'binary' } } };
}

const idempotencyKey = {
  name: 'Idempotency-Key',
  in: 'header',
  required: false,
  description: 'Names the command; a repeat gets the first answer.',
  schema: { type: 'string', pattern: '^[\\w.-]{8,80}$' },
};

function securityOf(route: Route): object[] {
  switch (route.access.kind) {
    case 'public':
      return [];
    case 'tablet':
      return [{ tablet: [] }];
    case 'tabletOrPerson':
      return [{ tablet: [] }, { session: [] }];
    case 'person':
      return [{ session: [] }];
  }
}

function refusalResponses(route: Route): Record<string, object> {
  const byStatus = new Map<number, RefusalCode[]>();
  for (const code of refusalsOf(route))
    byStatus.set(refusals[code], [...(byStatus.get(refusals[code]) ?? []), code]);
  return Object.fromEntries(
    [...byStatus].map(([status, codes]) => [
      String(status),
      {
        description: codes.join(', '),
        content: { 'application/json': { schema: { $ref: '#/components/schemas/Refusal' } } },
      },
    ]),
  );
}

function parametersOf(schema: z.ZodType | undefined, place: 'path' | 'query'): object[] {
  if (schema === undefined) return [];
  const { properties = {}, required = [] } = schemaOf(schema, 'input') as {
    properties?: Record<string, object>;
    required?: string[];
  };
  return Object.entries(properties).map(([name, property]) => ({
    name,
    in: place,
    required: place === 'path' || required.includes(name),
    schema: property,
  }));
}

function schemaOf(schema: z.ZodType, io: 'input' | 'output'): object {
  const { $schema: _draft, ...rest } = z.toJSONSchema(schema, {
    io,
    unrepresentable: 'any',
  }) as Record<string, unknown>;
  return rest;
}
