import type { z } from 'zod';
import type { Access } from './access.js';
import type { RefusalCode } from './errors.js';

/** Everything the server, the web client and the OpenAPI document need to know of one operation. */
export interface Route<
  Params extends z.ZodType = z.ZodType,
  Query extends z.ZodType = z.ZodType,
  Body extends z.ZodType = z.ZodType,
  Reply extends z.ZodType = z.ZodType,
> {
  readonly id: string;
  readonly area: string;
  readonly method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** Fastify style, e.g. `/api/parts/:partId`. */
  readonly path: string;
  readonly summary: string;
  readonly access: Access;
  readonly params?: Params;
  readonly query?: Query;
  readonly body?: Body;
  readonly reply: Reply;
  /** The media type of an answer that is no JSON; `reply` then tells its bytes. */
  readonly media?: 'application/pdf' | '*/*';
  /** The body is one file, sent as a form of that one field. */
  readonly takesFile?: true;
  /** Refusals beyond the ones that follow from access and shape. */
  readonly refusals: readonly RefusalCode[];
}

type Part<Schema> = Schema extends z.ZodType ? z.infer<Schema> : undefined;

export type ParamsOf<R> = R extends { params: infer S } ? Part<S> : undefined;
export type QueryOf<R> = R extends { query: infer S } ? Part<S> : undefined;
export type BodyOf<R> = R extends { body: infer S } ? Part<S> : undefined;
export type ReplyOf<R> = R extends { reply: infer S } ? Part<S> : undefined;

/** Keeps the literal types of a route while checking its shape. */
export function defineRoute<const R extends Route>(route: R): R {
  return route;
}
