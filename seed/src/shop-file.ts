import { systemActor, type Actor, type Context } from '@tackboard/api';
import type { Cell, Person, Revision } from '@tackboard/contract';
import type { Days } from './days.js';
import type { DemoFamily } from './shop/parts.js';

/** One part of the demo shop with all that is needed to order and make it. */
export interface FiledPart {
  readonly family: DemoFamily;
  readonly partId: string;
  readonly number: string;
  readonly revision: Revision;
  readonly thicknessMm: number;
}

/** What has been put on file so far, by the codes people use. */
export interface ShopFile {
  readonly context: Context;
  readonly days: Days;
  readonly clock: { set(at: Date): void; now(): Date };
  readonly people: Map<string, Person>;
  readonly cells: Map<string, Cell>;
  readonly items: Map<string, { readonly id: string }>;
  readonly lots: Map<string, { readonly id: string; readonly item: string }>;
  readonly customers: Map<string, string>;
  readonly parts: FiledPart[];
}

export function got<T>(map: ReadonlyMap<string, T>, key: string): T {
  const value = map.get(key);
  if (value === undefined) throw new Error(`The demo shop names ${key}, but it is not on file.`);
  return value;
}

/** The person acts in the office, as somebody signed in there would. */
export function by(shop: Pick<ShopFile, 'people'>, code: string): Actor {
  return { ...systemActor, person: got(shop.people, code) };
}
