import type { FirstPiece } from '@tackboard/contract';
import { expect } from 'vitest';
import type { Agent } from './app.js';

/** The first piece of a run as drawn and without a fault, signed by the one who welds. */
export async function passFirstPiece(agent: Agent, runId: string): Promise<void> {
  const at = `/api/runs/${runId}/first-piece`;
  const { welds }: FirstPiece = (await agent.get(at).expect(200)).body;
  const sizes = welds.map(({ number, measure, drawnMm }) => ({
    ...{ weldNumber: number, measure, measuredMm: drawnMm },
  }));
  const answer = await agent.post(at).send({ sizes, visual: 'pass' });
  expect(answer.status, answer.body.message).toBe(200);
}

/** First piece, all parts counted, and put down as done. */
export async function finishRun(agent: Agent, runId: string, good: number): Promise<void> {
  await passFirstPiece(agent, runId);
  const at = `/api/runs/${runId}`;
  await agent.post(`${at}/counts`).send({ good }).expect(200);
  await agent.post(`${at}/put-down`).send({ batchComplete: true }).expect(200);
}
