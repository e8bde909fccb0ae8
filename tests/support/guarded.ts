import type { Route } from '@tackboard/contract';
import { expect } from 'vitest';
import type { Agent, TestShop } from './app.js';

export type Caller = 'stranger' | 'tablet' | keyof TestShop['people'];
export const signedIn = ['office', 'welder', 'qa', 'coordinator', 'manager'] as const;
export const everyone: readonly Caller[] = ['stranger', 'tablet', ...signedIn];
/** Has the form of an id and belongs to nothing. */
export const unknownId = '00000000-0000-7000-8000-000000000000';

export interface Input {
  readonly params?: Readonly<Record<string, string>>;
  readonly query?: Readonly<Record<string, string>>;
  readonly body?: unknown;
}

export interface Guard {
  /** Everybody who gets past the door; all others have to be turned away. */
  readonly allowed: readonly Caller[];
  /** Input that is refused, with the field that the refusal has to name. */
  readonly malformed?: readonly (Input & { readonly field: string })[];
  /** The call signs its caller out. */
  readonly endsSession?: boolean;
}

/** Sends one call of a route; ids that are not given are unknown ones. */
export async function call(
  agent: Agent,
  route: Pick<Route, 'method' | 'path'>,
  { params = {}, query = {}, body }: Input = {},
) {
  const path = route.path.replace(/:(\w+)/g, (_, name: string) =>
    encodeURIComponent(params[name] ?? unknownId),
  );
  const method = route.method.toLowerCase() as 'get' | 'post' | 'put' | 'patch' | 'delete';
  const request = agent[method](path).query(query);
  return body === undefined ? request : request.send(body as object);
}

const agents = new WeakMap<TestShop, Map<Caller, Agent>>();

/** One agent per caller and shop: signing in is slow on purpose. */
export async function agentOf(shop: TestShop, caller: Caller): Promise<Agent> {
  const known = agents.get(shop) ?? new Map<Caller, Agent>();
  agents.set(shop, known);
  const agent =
    known.get(caller) ??
    (caller === 'stranger'
      ? shop.stranger()
      : caller === 'tablet'
        ? await shop.tablet('R1')
        : await shop.as(caller));
  known.set(caller, agent);
  return agent;
}

/** Not signed in, wrong role, malformed input: the three ways to be turned away at every door. */
export async function expectGuarded(shop: TestShop, route: Route, guard: Guard): Promise<void> {
  const body = route.body === undefined ? undefined : {};
  const { allowed, malformed = [], endsSession = false } = guard;
  for (const caller of everyone) {
    const reply = await call(await agentOf(shop, caller), route, { body });
    const { code, fields, current } = reply.body as Record<string, unknown>;
    const found = { route: route.id, caller, status: reply.status, code, fields, current };
    if (allowed.includes(caller)) {
      expect([401, 403, 500], JSON.stringify(found)).not.toContain(reply.status);
      if (endsSession) agents.get(shop)?.delete(caller);
    } else {
      const turnedAway =
        caller in shop.people && route.access.kind === 'person'
          ? { status: 403, code: 'NOT_ALLOWED' }
          : { status: 401, code: 'NOT_SIGNED_IN' };
      expect(found).toEqual({ route: route.id, caller, ...turnedAway, fields: [], current: null });
    }
  }
  for (const { field, ...input } of malformed) {
    const reply = await call(await agentOf(shop, allowed.at(-1) ?? 'stranger'), route, input);
    expect(reply.body, route.id).toMatchObject({ code: 'INVALID' });
    expect(reply.status).toBe(400);
    expect(
      (reply.body as { fields: { field: string }[] }).fields.map((one) => one.field),
    ).toContain(field);
  }
}
