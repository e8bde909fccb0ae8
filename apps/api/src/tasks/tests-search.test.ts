import { candidateTests, testBook, type WeldInNeed } from '@tackboard/calc';
import { describe, expect, it } from 'vitest';
import { chooseSets } from './choose-sets.js';
import type { TestsTask } from './tests-messages.js';
import { startTests } from './tests-search.js';

const code = { code: 'ISO 15614-1', edition: '2017', for: 'procedures' } as const;

function weld(at: number): WeldInNeed {
  const part = { group: '1.2', material: 'S355J2', thicknessMm: 3 + ((at * 7) % 40) };
  return {
    ...{ id: `weld ${at}`, process: '135', mechanisation: 'partlyMechanised' },
    ...{ jointType: 'fillet', position: 'PB', parts: [part, part], depositedMm: null },
    ...{ throatMm: 3 + ((at * 5) % 9), units: ['B1'] },
  };
}

const task = (count: number): TestsTask => ({
  ...code,
  conditions: { propertiesDemanded: true, runs: 'unknown' },
  welds: Array.from({ length: count }, (_, at) => weld(at)),
  ...{ budget: 2, limitMs: 4000 },
});

describe('the thread that looks for tests', () => {
  it('answers as the same search does outside of it, and is gone', async () => {
    const asked = task(30);
    const book = testBook(code);
    if (book === null) throw new Error('There are rules for this code.');
    const { tests, notHeld } = candidateTests({ book, ...asked });
    const sets = tests.map(({ welds }) => welds);
    const choices = await chooseSets({ problem: { places: 30, sets }, budget: 2, limitMs: 4000 });
    expect(choices.fewest.proven).toBe(true);
    expect(await startTests(asked).answer).toEqual({ tests, notHeld, ...choices });
  });

  it('ended from outside it answers nothing', async () => {
    const running = startTests(task(400));
    await running.end();
    expect(await running.answer).toBeNull();
  });

  it('tells that it broke off', async () => {
    await expect(startTests({ ...task(1), edition: '1066' }).answer).rejects.toThrow(
      'there are no rules for ISO 15614-1:1066',
    );
    await expect(startTests(task(1), '/nowhere/worker.js').answer).rejects.toThrow('nowhere');
  });
});
