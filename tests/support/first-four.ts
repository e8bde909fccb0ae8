import { expect, it } from 'vitest';
import type { Agent, TestShop } from './app.js';
import { signedIn, type Who } from './signed-in.js';

export interface DoorCase {
  readonly method: 'get' | 'post' | 'put' | 'patch' | 'delete';
  /** The path of a call that succeeds, and its body. */
  readonly path: () => string;
  readonly body?: () => object;
  readonly allowed: Who;
  /** Nobody is left out where every role may call. */
  readonly refused?: Who;
  /** A call of a bad shape, and the field that the answer must name; none where there is nothing to shape. */
  readonly malformed?: { readonly path?: string; readonly body?: object; readonly field: string };
}

/** The four tests that every door has: not signed in, wrong role, malformed, success. */
export function firstFour(name: string, shop: () => TestShop, door: DoorCase): void {
  const call = (agent: Agent, path: string, body: object | undefined) =>
    body === undefined ? agent[door.method](path) : agent[door.method](path).send(body);

  it(`${name}: not signed in`, async () => {
    const answer = await call(shop().stranger(), door.path(), door.body?.());
    expect([answer.status, answer.body.code]).toEqual([401, 'NOT_SIGNED_IN']);
  });

  const { refused, malformed } = door;
  if (refused !== undefined) {
    it(`${name}: refused to ${refused}`, async () => {
      const answer = await call(await signedIn(shop(), refused), door.path(), door.body?.());
      expect([answer.status, answer.body.code]).toEqual([403, 'NOT_ALLOWED']);
    });
  }

  if (malformed !== undefined) {
    it(`${name}: malformed`, async () => {
      const body = malformed.body ?? door.body?.();
      const answer = await call(
        await signedIn(shop(), door.allowed),
        malformed.path ?? door.path(),
        body,
      );
      expect([answer.status, answer.body.code]).toEqual([400, 'INVALID']);
      expect(answer.body.fields.map((each: { field: string }) => each.field)).toContain(
        malformed.field,
      );
    });
  }

  it(`${name}: done by ${door.allowed}`, async () => {
    const answer = await call(await signedIn(shop(), door.allowed), door.path(), door.body?.());
    expect(answer.status, answer.body.message).toBe(200);
  });
}
