import type { Actor } from '@tackboard/api';
import type { FirstPieceTask } from '@tackboard/contract';
import type { Agent, TestShop } from './app.js';

/** Sizes as drawn: each weld that the check asks for, measured one way. */
export function sizesAsDrawn({ sizes }: Pick<FirstPieceTask, 'sizes'>) {
  const welds = new Map(sizes.toReversed().map((size) => [size.weldNumber, size]));
  return [...welds.values()].map(({ weldNumber, measure, lowestMm }) => ({
    ...{ weldNumber, measure },
    measuredMm: Math.ceil(lowestMm * 10) / 10,
  }));
}

/** The first piece of a run measures as drawn and is signed by whoever asks. */
export async function passFirstPiece(agent: Agent, runId: string): Promise<void> {
  const at = `/api/runs/${runId}/first-piece`;
  const task = await agent.get(at).expect(200);
  if ((task.body as FirstPieceTask).passed) return;
  const sizes = sizesAsDrawn(task.body as FirstPieceTask);
  const answer = await agent.post(at).send({ sizes, visual: 'accepted' });
  if (answer.status !== 200) throw new Error(`${answer.status}: ${answer.body.message}`);
}

/** The same without a door in between. */
export async function signFirstPiece(
  { context }: Pick<TestShop, 'context'>,
  actor: Actor,
  runId: string,
): Promise<void> {
  const { quality } = context.services;
  const task = await quality.firstPieceOfRun(runId);
  if (task.passed) return;
  const found = { visual: 'accepted' as const, imperfections: [], note: '' };
  await quality.checkFirstPiece(actor, runId, { ...found, sizes: sizesAsDrawn(task) });
}

/** First piece checked, all parts counted, and put down as done. */
export async function finishRun(agent: Agent, runId: string, good: number): Promise<void> {
  const at = `/api/runs/${runId}`;
  await passFirstPiece(agent, runId);
  await agent.post(`${at}/counts`).send({ good }).expect(200);
  await agent.post(`${at}/put-down`).send({ batchComplete: true }).expect(200);
}
