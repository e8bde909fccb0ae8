import { describe, expect, it } from 'vitest';
import type { Plan } from '../planning/plan.js';
import type { OrderMessage, OrderTask } from './order-messages.js';
import { startOrderThread, type OrderListener, type OrderThread } from './order-search.js';

/** Steps with one fixture each out of five, all due at once at one cell. */
function planOf(count: number): Plan {
  const ids = Array.from({ length: count }, (_, at) => `step ${at}`);
  return {
    problem: {
      cells: [{ id: 'R1', freeFromMin: 0 }],
      steps: ids.map((id, at) => ({
        ...{ id, customer: `customer ${at % 3}`, weight: 1, releaseMin: 0 },
        ...{ dueMin: 10 * ((at * 37) % count), processingMin: [10 + ((at * 7) % 23)] },
      })),
      today: [ids],
    },
    setUps: ids.map((id, at) => ({
      ...{ stepId: id, setUpMin: 40 },
      kept: [
        {
          ...{ wireItemId: null, gasItemId: null, torch: '', programId: null },
          fixtureId: `fixture ${at % 5}`,
        },
      ],
    })),
    pace: [1],
    learnt: [[]],
  };
}

interface Heard {
  readonly messages: OrderMessage[];
  readonly error: Error | null;
}

/** Waits for the end of a search, or for its `stopAfter`-th message. */
async function heard(
  task: OrderTask,
  options: { workerFile?: string; stopAfter?: number; taskAfterMs?: number } = {},
): Promise<Heard & { search: OrderThread }> {
  return new Promise((resolve) => {
    const messages: OrderMessage[] = [];
    const search = startOrderThread(options.workerFile);
    const listener: OrderListener = {
      told(message) {
        messages.push(message);
        const enough = messages.length === options.stopAfter;
        if (message.kind !== 'found' || enough) resolve({ messages, error: null, search });
      },
      broke: (error) => resolve({ messages, error, search }),
    };
    setTimeout(() => search.begin(task, listener), options.taskAfterMs ?? 0);
  });
}

const costs = (messages: readonly OrderMessage[]) =>
  messages.flatMap((message) => (message.kind === 'found' ? [message.found.proposedCost] : []));

describe('a search in a thread of its own', () => {
  it('tells better orders as they come and ends at its limit', async () => {
    const begun = performance.now();
    const { messages, search } = await heard({ plan: planOf(120), seed: 1, limitMs: 1_500 });
    const tookMs = performance.now() - begun;
    await search.end();
    expect(messages.at(-1)).toEqual({ kind: 'ended' });
    const told = costs(messages);
    expect(told.length).toBeGreaterThan(1);
    expect(told).toEqual(told.toSorted((a, b) => b - a));
    expect(tookMs).toBeGreaterThanOrEqual(1_500);
    expect(tookMs).toBeLessThan(6_000);
  });

  it('can be ended long before its limit, and tells nothing more', async () => {
    const task = { plan: planOf(120), seed: 1, limitMs: 600_000 };
    const { messages, search } = await heard(task, { stopAfter: 1 });
    const count = messages.length;
    await search.end();
    await new Promise((resolve) => setTimeout(resolve, 400));
    expect(messages).toHaveLength(count);
    expect(messages.at(-1)?.kind).toBe('found');
  });

  it('explains each order with moves whose costs add up to the difference', async () => {
    const { messages, search } = await heard({ plan: planOf(8), seed: 1, limitMs: 60_000 });
    await search.end();
    const found = messages.flatMap((message) => (message.kind === 'found' ? [message] : [])).at(-1);
    expect(found?.proven).toBe(true);
    const { moves = [], todayCost = 0, proposedCost = 0 } = found?.found ?? {};
    expect(proposedCost).toBeLessThan(todayCost);
    const sum = moves.reduce((all, { cost }) => all + cost, 0);
    expect(sum).toBe(proposedCost - todayCost);
  });

  it('says in words what cannot be planned', async () => {
    const plan = planOf(3);
    const looped = plan.problem.steps.map((step, at) => ({
      ...step,
      after: [`step ${(at + 1) % 3}`],
    }));
    const task = {
      plan: { ...plan, problem: { ...plan.problem, steps: looped } },
      seed: 1,
      limitMs: 100,
    };
    const { messages, search } = await heard(task);
    await search.end();
    expect(messages).toEqual([
      { kind: 'refused', refusal: expect.objectContaining({ argument: 'steps.after' }) },
    ]);
  });

  it('refuses in words what is too large, without running out of memory', async () => {
    const { messages, search } = await heard({ plan: planOf(5_000), seed: 1, limitMs: 100 });
    await search.end();
    expect(messages).toEqual([
      {
        kind: 'refused',
        refusal: expect.objectContaining({ argument: 'steps', given: 5_000 }),
      },
    ]);
  });

  it('answers with an error when the thread dies', async () => {
    const task = { plan: planOf(3), seed: 1, limitMs: 100 };
    const missing = await heard(task, { workerFile: './nowhere/order-worker.js' });
    expect(missing.error?.message).toContain('order-worker.js');
    const broken = { ...task, plan: { ...task.plan, setUps: null as unknown as Plan['setUps'] } };
    expect((await heard(broken)).error).toBeInstanceOf(Error);
  });

  it('tells of a thread that died while its task was being prepared', async () => {
    const task = { plan: planOf(3), seed: 1, limitMs: 100 };
    const missing = { workerFile: './nowhere/order-worker.js', taskAfterMs: 500 };
    expect((await heard(task, missing)).error?.message).toContain('order-worker.js');
  });
});
