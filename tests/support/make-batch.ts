import type { Actor } from '@tackboard/api';
import type { FirstPieceTask, Run, SetUpCard, SetUpMemory } from '@tackboard/contract';
import type { Agent, TestShop } from './app.js';

/** Sizes as drawn: each weld that the check asks for, measured one way. */
export function sizesAsDrawn({ sizes }: Pick<FirstPieceTask, 'sizes'>) {
  const welds = new Map(sizes.toReversed().map((size) => [size.weldNumber, size]));
  return [...welds.values()].map(({ weldNumber, measure, lowestMm }) => ({
    ...{ weldNumber, measure },
    measuredMm: Math.ceil(lowestMm * 10) / 10,
  }));
}

/** The program of a step's set-up with the revision that is known to be loaded; null where none is named. */
async function programOf(agent: Agent, jobStepId: string) {
  const at = `/api/job-steps/${jobStepId}`;
  const card: SetUpCard = (await agent.get(`${at}/card`).expect(200)).body;
  if ((card.setUp?.programName ?? null) === null) return null;
  const memory: SetUpMemory = (await agent.get(`${at}/memory`).expect(200)).body;
  const revision = memory.programAtClose ?? memory.programAtStart ?? card.setUp?.programRevision;
  return { revision: revision ?? '1' };
}

/** Everything stands at the cell as the card shows it, said by whoever asks. */
export async function startRun(agent: Agent, runId: string): Promise<void> {
  const at = `/api/runs/${runId}`;
  const run: Run = (await agent.get(at).expect(200)).body;
  if (run.start !== null) return;
  const program = await programOf(agent, run.jobStepId);
  const answer = await agent.post(`${at}/as-shown`).send({ program });
  if (answer.status !== 200) throw new Error(`${answer.status}: ${answer.body.message}`);
}

/** What is asked before a batch is put down: the program revision, where a program is named. */
async function closeRun(agent: Agent, runId: string): Promise<void> {
  const at = `/api/runs/${runId}`;
  const run: Run = (await agent.get(at).expect(200)).body;
  const program = await programOf(agent, run.jobStepId);
  if (program !== null)
    await agent.post(`${at}/close-out`).send({ programRevision: program.revision });
}

/** Put down, its program read before where one is named; what is refused is for the caller to see. */
export async function putDown(agent: Agent, runId: string, body: object = {}) {
  await closeRun(agent, runId);
  return agent.post(`/api/runs/${runId}/put-down`).send(body);
}

/** The run is started as shown, its first piece measures as drawn, and it is signed by whoever asks. */
export async function passFirstPiece(agent: Agent, runId: string): Promise<void> {
  const at = `/api/runs/${runId}/first-piece`;
  await startRun(agent, runId);
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
  const { quality, queue, runs } = context.services;
  const { start, jobStepId } = await runs.run(runId);
  if (start === null) {
    const { setUp } = await queue.card(actor, jobStepId);
    const loaded = { revision: setUp?.programRevision ?? '1', note: null };
    const program = (setUp?.programName ?? null) === null ? null : loaded;
    await runs.start(actor, runId, { differences: [], program, happenedAt: null });
  }
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
  const down = await putDown(agent, runId, { batchComplete: true });
  if (down.status !== 200) throw new Error(`${down.status}: ${down.body.message}`);
}
