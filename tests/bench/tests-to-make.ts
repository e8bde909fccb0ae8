import { startTests, type TestsTask } from '@tackboard/api';

const conditions = { propertiesDemanded: true, runs: 'unknown' } as const;
const at = <T>(list: readonly T[], index: number) => list[index % list.length] as T;

export const openWelds = 500;
const limitMs = 5000;

/** Invented welds that differ in size, position, steel, process and joint. */
function welds(): TestsTask['welds'] {
  return Array.from({ length: openWelds }, (_, index) => {
    const material = at(['S235JR', 'S275J0', 'S355J2', 'S460M'], index * 7);
    const part = (thicknessMm: number) => ({ group: '1.2', material, thicknessMm });
    const jointType = at(['fillet', 'fillet', 'butt'], index);
    const thin = 2 + (index % 41) / 2;
    const thick = 3 + (index % 53) / 2;
    return {
      ...{ id: `w${index}`, jointType, mechanisation: 'partlyMechanised', units: ['B1'] },
      process: at(['135', '135', '138', '136'], index * 3),
      position: at(['PA', 'PB', 'PC', 'PE', 'PF'], index * 11),
      parts: [part(thin), part(thick)],
      throatMm: jointType === 'fillet' ? 2.5 + (index % 19) / 2 : null,
      depositedMm: jointType === 'butt' ? Math.min(thin, thick) : null,
    };
  });
}

export interface TestsFigure {
  readonly seconds: number;
  readonly tests: number;
  /** Fewer tests than this are proven not to be enough. */
  readonly atLeast: number;
  readonly proven: boolean;
}

/** The fewest tests for many open welds to ISO 15614-1, in the thread that answers the screen. */
export async function testsToMakeS(): Promise<TestsFigure> {
  const startMs = performance.now();
  const code = { code: 'ISO 15614-1', edition: '2017', for: 'procedures' } as const;
  const { answer } = startTests({ ...code, conditions, welds: welds(), budget: 5, limitMs });
  const found = await answer;
  if (found === null) throw new Error('Nobody ended this search.');
  const { chosen, bound, proven } = found.fewest;
  const seconds = Math.round((performance.now() - startMs) / 10) / 100;
  return { seconds, tests: chosen.length, atLeast: bound, proven };
}
