import { allRoutes, refusals, type RefusalCode } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';

interface Operation {
  operationId: string;
  summary: string;
  parameters: { name: string; in: string; required: boolean; schema: object }[];
  requestBody?: { content: Record<string, { schema: object }> };
  responses: Record<string, { description: string; content: Record<string, { schema: object }> }>;
}
interface OpenApi {
  openapi: string;
  info: { title: string; version: string };
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, object> };
}

/** Every `$ref` below a value. */
function refsIn(value: unknown): string[] {
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    key === '$ref' && typeof inner === 'string' ? [inner] : refsIn(inner),
  );
}

// The required fields are those of the OpenAPI Specification 3.1.0, sections 4.8.1, 4.8.10, 4.8.12 and 4.8.17.
describe('the OpenAPI document', () => {
  let shop: TestShop;
  let document: OpenApi;
  beforeAll(async () => {
    shop = await startTestShop();
    document = (await shop.stranger().get('/api/openapi.json').expect(200)).body as OpenApi;
  });
  afterAll(async () => shop.close());

  const operations = () =>
    Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
    );

  it('is of version 3.1 with a title and a version', () => {
    expect(document.openapi).toMatch(/^3\.1\.\d$/);
    expect(document.info.title).not.toBe('');
    expect(document.info.version).toMatch(/^\d+\.\d+\.\d+/);
  });

  it('holds exactly the operations of the contract', () => {
    const found = operations().map(({ path, method }) => `${method.toUpperCase()} ${path}`);
    const wanted = allRoutes.map(
      (route) => `${route.method} ${route.path.replace(/:(\w+)/g, '{$1}')}`,
    );
    expect(found.sort()).toEqual(wanted.sort());
  });

  it('gives every operation an id of its own', () => {
    const ids = operations().map(({ operation }) => operation.operationId);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('declares each path parameter once, required and with a schema', () => {
    for (const { path, operation } of operations()) {
      const inPath = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name);
      const declared = operation.parameters.filter((one) => one.in === 'path');
      expect(declared.map((one) => one.name).sort(), path).toEqual(inPath.sort());
      for (const one of declared) expect(one, path).toMatchObject({ required: true, schema: {} });
      const names = operation.parameters.map((one) => `${one.in} ${one.name}`);
      expect(new Set(names).size, path).toBe(names.length);
    }
  });

  it('describes every answer, with each refusal under its status', () => {
    for (const route of allRoutes) {
      const path = route.path.replace(/:(\w+)/g, '{$1}');
      const operation = document.paths[path]?.[route.method.toLowerCase()];
      const codes: RefusalCode[] = [
        ...route.refusals,
        ...(route.access.kind === 'public' ? [] : (['NOT_SIGNED_IN'] as const)),
        ...(route.access.kind === 'person' ? (['NOT_ALLOWED'] as const) : []),
        ...(route.body === undefined
          ? []
          : (['INVALID', 'TOO_LARGE', 'WRONG_MEDIA_TYPE'] as const)),
        ...(route.method === 'GET' ? [] : (['FOREIGN_ORIGIN'] as const)),
      ];
      for (const code of codes)
        expect(operation?.responses[String(refusals[code])]?.description, route.id).toContain(code);
      const { content = {} } = operation?.responses['200'] ?? {};
      expect(Object.keys(content), route.id).toEqual([route.media ?? 'application/json']);
      expect(Object.values(content)[0]?.schema, route.id).toBeTypeOf('object');
      expect(operation?.requestBody !== undefined, route.id).toBe(
        route.body !== undefined || route.takesFile === true,
      );
      for (const response of Object.values(operation?.responses ?? {}))
        expect(response.description).not.toBe('');
    }
  });

  it('refers to nothing that is not in it', () => {
    const refs = refsIn(document);
    expect(refs).toContain('#/components/schemas/Refusal');
    const missing = refs.filter((ref) => {
      const name = ref.match(/^#\/components\/schemas\/(\w+)$/)?.[1];
      return name === undefined || !(name in document.components.schemas);
    });
    expect(missing).toEqual([]);
  });

  it('has a page to read that lists every operation and holds no script', async () => {
    const { text, headers } = await shop.stranger().get('/api/docs').expect(200);
    expect(headers['content-type']).toMatch(/^text\/html/);
    for (const route of allRoutes)
      expect(text).toContain(`<code>${route.method} ${route.path}</code>`);
    expect(text).not.toMatch(/<script|onclick|style=/);
  });
});
