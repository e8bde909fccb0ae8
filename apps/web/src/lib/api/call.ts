import type { ReplyOf, Route } from '@tackboard/contract';
import { tellAnswered } from './answered.js';
import { ApiRefusal, NotReached, refusalFrom } from './refusal.js';
import { addressOf, isWrite, newKey, type Query } from './request.js';
import { tellSignedOut } from './signed-out.js';

/** What a caller gives before defaults are filled in, read from the schema itself. */
type InputOf<Schema> = Schema extends { _zod: { input: infer Input } } ? Input : never;
type Slot<R, Name extends 'params' | 'query' | 'body'> = R extends { [K in Name]: infer Schema }
  ? object extends InputOf<Schema>
    ? { [K in Name]?: InputOf<Schema> }
    : { [K in Name]: InputOf<Schema> }
  : { [K in Name]?: undefined };

export type CallInput<R> = Slot<R, 'params'> &
  Slot<R, 'query'> &
  Slot<R, 'body'> & {
    /** Names the act, so that a repeat counts once; a new one is made when left out. */
    readonly idempotencyKey?: string;
    /** Who did it; the server takes it from that person only. Left out, it is whoever is signed in. */
    readonly actingPersonId?: string;
    /** A file upload in place of a JSON body. */
    readonly form?: FormData;
    readonly signal?: AbortSignal;
  };

interface AnyInput {
  readonly params?: unknown;
  readonly query?: unknown;
  readonly body?: unknown;
  readonly idempotencyKey?: string;
  readonly actingPersonId?: string;
  readonly form?: FormData;
  readonly signal?: AbortSignal;
}

/**
 * Calls one route of the contract.
 * Throws `ApiRefusal` when the server says no, `NotReached` when it does not answer.
 */
export async function call<R extends Route>(
  route: R,
  ...[input]: object extends CallInput<R> ? [input?: CallInput<R>] : [input: CallInput<R>]
): Promise<ReplyOf<R>> {
  const given: AnyInput = input ?? {};
  const sentAtMs = performance.now();
  const address = addressOf(route.path, given.params as Query, given.query as Query);
  const response = await send(route, address, given);
  const reply: unknown = await response.json().catch((cause: unknown) => {
    throw new NotReached({ cause });
  });
  if (!response.ok) {
    const refusal = refusalFrom(reply);
    if (refusal instanceof ApiRefusal && refusal.code === 'NOT_SIGNED_IN') tellSignedOut(sentAtMs);
    throw refusal;
  }
  return reply as ReplyOf<R>;
}

async function send(route: Route, address: string, given: AnyInput): Promise<Response> {
  const headers: Record<string, string> = { accept: 'application/json' };
  if (isWrite(route)) headers['idempotency-key'] = given.idempotencyKey ?? newKey();
  if (given.actingPersonId !== undefined) headers['acting-person'] = given.actingPersonId;
  let body: BodyInit | undefined = given.form;
  if (body === undefined && given.body !== undefined) {
    headers['content-type'] = 'application/json';
    body = JSON.stringify(given.body);
  }
  try {
    const sentAtMs = Date.now();
    const response = await fetch(address, {
      method: route.method,
      headers,
      credentials: 'same-origin',
      ...(body === undefined ? {} : { body }),
      ...(given.signal === undefined ? {} : { signal: given.signal }),
    });
    const date = response.headers.get('date');
    tellAnswered({ date, sentAtMs, receivedAtMs: Date.now() });
    return response;
  } catch (cause) {
    throw new NotReached({ cause });
  }
}
