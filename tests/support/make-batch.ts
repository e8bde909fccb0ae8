import type { Agent } from './app.js';

/** All parts counted, and put down as done. */
export async function finishRun(agent: Agent, runId: string, good: number): Promise<void> {
  const at = `/api/runs/${runId}`;
  await agent.post(`${at}/counts`).send({ good }).expect(200);
  await agent.post(`${at}/put-down`).send({ batchComplete: true }).expect(200);
}
