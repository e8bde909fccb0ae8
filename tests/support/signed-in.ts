import type { Agent, TestShop } from './app.js';

export type Who = keyof TestShop['people'];

const agents = new WeakMap<TestShop, Map<Who, Promise<Agent>>>();

/** Hashing a password takes its time on purpose; one session per person is enough for most tests. */
export async function signedIn(shop: TestShop, who: Who): Promise<Agent> {
  const ofShop = agents.get(shop) ?? new Map<Who, Promise<Agent>>();
  agents.set(shop, ofShop);
  const agent = ofShop.get(who) ?? shop.as(who);
  ofShop.set(who, agent);
  return agent;
}
