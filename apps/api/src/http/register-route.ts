import { createHash } from 'node:crypto';
import {
  mayCall,
  refusals,
  RefusalReply,
  type BodyOf,
  type ParamsOf,
  type QueryOf,
  type RefusalCode,
  type ReplyOf,
  type Route,
} from '@tackboard/contract';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { Actor } from '../actor.js';
import { Refusal } from '../refusal.js';
import { documentPolicy } from './security-headers.js';

export interface Call<R extends Route> {
  readonly params: ParamsOf<R>;
  readonly query: QueryOf<R>;
  readonly body: BodyOf<R>;
  readonly actor: Actor;
  readonly request: FastifyRequest;
}

interface Options {
  /** The answer holds a secret that is shown once: it is not kept for a repeat of the command. */
  readonly keepsNoAnswer?: boolean;
}

/** The answers that were stored with their commands. */
interface Answers {
  of(command: NonNullable<Actor['command']>): Promise<{ readonly answer: unknown } | null>;
}

declare module 'fastify' {
  interface FastifyInstance {
    answers: Answers;
  }
  interface FastifyContextConfig {
    route?: Route;
  }
}

/** Gives one operation of the contract its door: shape, access rule, refusals and reply all come from there. */
export function registerRoute<R extends Route>(
  app: FastifyInstance,
  route: R,
  handle: (
    call: Call<R>,
    reply: {
      header(name: string, value: string): unknown;
      setCookie: FastifyReply['setCookie'];
      clearCookie: FastifyReply['clearCookie'];
    },
  ) => Promise<ReplyOf<R>>,
  options: Options = {},
): void {
  app.route({
    ...doorOf(route),
    handler: async (request, reply) => {
      const answer = await answered(app, route, request, {
        ...options,
        act: async (call) => handle(call, reply),
      });
      // Not before: a refusal is JSON.
      if (route.media === 'application/pdf') documentHeaders(reply, route.media);
      return answer;
    },
  });
}

/** What every door has: the address, the shapes and the access rule. */
export function doorOf(route: Route) {
  return {
    method: route.method,
    url: route.path,
    config: { route },
    schema: {
      ...(route.params === undefined ? {} : { params: route.params }),
      ...(route.query === undefined ? {} : { querystring: route.query }),
      ...(route.body === undefined ? {} : { body: route.body }),
      // Bytes are sent as they are; only JSON is held against the shape of the answer.
      response: {
        ...(route.media === undefined ? { 200: route.reply } : {}),
        ...refusalSchemas(route),
      },
    },
    // Access is decided before the shape of the input: a stranger learns nothing from the answers.
    preValidation: async (request: FastifyRequest) => {
      enforce(route, request);
      mustBeMeant(request);
    },
  };
}

/** The answer of one call; a repeated command gets the first one. `body` stands for a body that is no JSON. */
export async function answered<R extends Route>(
  app: FastifyInstance,
  route: R,
  request: FastifyRequest,
  how: Options & {
    readonly body?: unknown;
    readonly act: (call: Call<R>) => Promise<ReplyOf<R>>;
  },
): Promise<ReplyOf<R>> {
  const body = how.body ?? request.body;
  const command = how.keepsNoAnswer === true ? null : commandOf(route, request, body);
  const actor: Actor = { ...request.actor, command };
  return once(command, app.answers, async () =>
    how.act({
      params: request.params as ParamsOf<R>,
      query: request.query as QueryOf<R>,
      body: request.body as BodyOf<R>,
      actor,
      request,
    }),
  );
}

function documentHeaders(reply: FastifyReply, media: string): void {
  void reply.type(media).header('content-security-policy', documentPolicy);
}

export function enforce(route: Pick<Route, 'access'>, request: FastifyRequest): void {
  const { person, tablet } = request.actor;
  if (mayCall(route.access, { person, tablet: tablet !== null })) return;
  if (person !== null && route.access.kind === 'person') {
    throw new Refusal(
      'NOT_ALLOWED',
      `${person.code} (${person.role}) may not do this. It needs ${needed(route)}.`,
    );
  }
  throw new Refusal(
    'NOT_SIGNED_IN',
    route.access.kind === 'tablet'
      ? 'This works at a registered cell tablet only. Ask the manager to register this device.'
      : 'Sign in first. What you typed stays on the screen.',
  );
}

/**
 * What was done at a tablet without network is sent later, and somebody else may have signed in there since. It is
 * taken from the one who did it only: the name in the record stays right, and a repeat finds its first answer.
 */
function mustBeMeant(request: FastifyRequest): void {
  const meant = request.headers['acting-person'];
  if (meant === undefined || meant === request.actor.person?.id) return;
  throw new Refusal(
    'NOT_SIGNED_IN',
    'Somebody else did this than the one who is signed in here now. It is kept; sign in as the one who did it to send it.',
  );
}

function needed(route: Pick<Route, 'access'>): string {
  if (route.access.kind !== 'person') return 'a registered tablet';
  const { roles, coordinator } = route.access;
  if (coordinator === 'needed') return 'the authority of the welding coordinator';
  const words = `one of these roles: ${roles.join(', ')}`;
  return coordinator === 'enough' ? `${words}; or the welding coordinator's authority` : words;
}

/** The refusals that follow from access and shape are added to the ones the route names. */
export function refusalsOf(route: Route): readonly RefusalCode[] {
  const codes = new Set<RefusalCode>(route.refusals);
  if (route.access.kind !== 'public') codes.add('NOT_SIGNED_IN');
  if (route.access.kind === 'person') codes.add('NOT_ALLOWED');
  if (route.params !== undefined || route.query !== undefined || route.body !== undefined)
    codes.add('INVALID');
  if (route.method !== 'GET')
    for (const code of ['FOREIGN_ORIGIN', 'DUPLICATE'] as const) codes.add(code);
  if (route.body !== undefined || route.takesFile === true)
    for (const code of ['INVALID', 'TOO_LARGE', 'WRONG_MEDIA_TYPE'] as const) codes.add(code);
  codes.add('TOO_MANY_ATTEMPTS');
  return [...codes];
}

function refusalSchemas(route: Route): Record<number, typeof RefusalReply> {
  return Object.fromEntries(refusalsOf(route).map((code) => [refusals[code], RefusalReply]));
}

/** Commands under way, by key: a repeat that overtakes waits for the first. */
const underWay = new Map<string, Promise<unknown>>();

async function once<T>(
  command: Actor['command'],
  answers: Answers,
  act: () => Promise<T>,
): Promise<T> {
  if (command === null) return act();
  await underWay.get(command.key)?.catch(() => undefined);
  const stored = await answers.of(command);
  if (stored !== null) return stored.answer as T;
  const turn = act();
  underWay.set(command.key, turn);
  try {
    return await turn;
  } finally {
    if (underWay.get(command.key) === turn) underWay.delete(command.key);
  }
}

function commandOf(route: Route, request: FastifyRequest, body: unknown): Actor['command'] {
  const key = request.headers['idempotency-key'];
  if (key === undefined || route.method === 'GET') return null;
  if (typeof key !== 'string' || !/^[\w.-]{8,80}$/.test(key)) {
    throw new Refusal(
      'INVALID',
      'The header Idempotency-Key must have 8 to 80 letters, digits, point, - or _.',
      {
        fields: [
          {
            field: 'header.idempotency-key',
            given: String(key).slice(0, 200),
            allowed: '8 to 80 letters, digits, point, - or _',
          },
        ],
      },
    );
  }
  const owner = request.actor.person?.id ?? request.actor.tablet?.id ?? 'nobody';
  const digest = createHash('sha256')
    .update(JSON.stringify([request.url, body ?? null]))
    .digest('hex');
  return { key: `${owner}:${key}`, routeId: route.id, digest };
}
