import { testBook, type NeedVariable, type TestConditions } from '@tackboard/calc';
import type { TestChoice, TestsToMake, TestToMake } from '@tackboard/contract';
import type { Choice } from '../tasks/choose-sets.js';
import type { TestsFound } from '../tasks/tests-messages.js';
import type { PlacedWeld } from './open-welds.js';
import { suggestionViews } from './rule-words.js';

interface Asked {
  readonly code: string;
  readonly edition: string;
  readonly for: TestsToMake['for'];
  readonly conditions: TestConditions;
  readonly open: readonly PlacedWeld[];
}

const missWords: Readonly<
  Record<NeedVariable, (weld: PlacedWeld['weld'], code: string) => string>
> = {
  process: ({ process }) => `the rules give nothing sure for process ${process}`,
  mechanisation: (_, code) => `${code} does not qualify for this kind of cell`,
  unit: () => 'there is no active cell of its kind',
  jointType: ({ jointType }, code) => `${code} as on file has no test piece for ${jointType} welds`,
  position: ({ position }) => `no test position on file holds ${position} for sure`,
  materialGroup: ({ materialGroupA, materialGroupB }) =>
    `the rules give nothing sure for groups ${materialGroupA} and ${materialGroupB}`,
  thickness: ({ thicknessAMm, thicknessBMm }) =>
    `no test thickness holds ${thicknessAMm} and ${thicknessBMm} mm for sure`,
  throat: ({ throatMm, legMm }) =>
    throatMm === null && legMm === null
      ? 'the weld list gives no throat'
      : 'no test piece holds its throat for sure',
};

const variableWords: Readonly<Record<NeedVariable, string>> = {
  ...{ process: 'process', mechanisation: 'mechanisation', unit: 'welding unit' },
  ...{ jointType: 'joint', position: 'position', materialGroup: 'material group' },
  ...{ thickness: 'thickness', throat: 'throat' },
};

function counted<T>(items: readonly T[], keyOf: (item: T) => string): Map<string, number> {
  const counts = new Map<string, number>();
  for (const item of items) counts.set(keyOf(item), (counts.get(keyOf(item)) ?? 0) + 1);
  return counts;
}

const partOf = ({ part }: PlacedWeld) => part.id;
const jobsOf = (welds: readonly PlacedWeld[]) =>
  welds.flatMap((weld) => [...new Map(weld.queued.map(({ job }) => [job.id, job])).values()]);

function testView({ piece, welds: places }: TestsFound['tests'][number], asked: Asked): TestToMake {
  const { open, conditions } = asked;
  const welds = places.flatMap((place) => open[place] ?? []);
  const book = testBook(asked);
  const [ofPart, ofJob] = [counted(open, partOf), counted(jobsOf(open), ({ id }) => id)];
  const [heldOfPart, heldOfJob] = [counted(welds, partOf), counted(jobsOf(welds), ({ id }) => id)];
  const parts = new Map(welds.map(({ part }) => [part.id, part.number]));
  const jobs = new Map(jobsOf(welds).map((job) => [job.id, job]));
  const { materials, mechanisation, ...values } = piece;
  return {
    ...values,
    mechanisation: mechanisation as TestToMake['mechanisation'],
    materials: (materials ?? []).map(({ group, material }) => `${group} ${material}`),
    ranges: book === null ? [] : suggestionViews(book.ranges(piece, conditions), new Map()),
    welds: welds.map(({ name }) => name),
    parts: [...parts].map(([partId, partNumber]) => ({
      ...{ partId, partNumber, held: heldOfPart.get(partId) ?? 0, of: ofPart.get(partId) ?? 0 },
    })),
    jobs: [...jobs.values()].map(({ id, number, dueOn, revision }) => ({
      ...{ jobId: id, jobNumber: number, partNumber: revision.part.number, dueOn },
      ...{ held: heldOfJob.get(id) ?? 0, of: ofJob.get(id) ?? 0 },
    })),
  };
}

/** The answer of the thread as the screens show it; only the tests of either choice are told. */
export function testsView(
  found: TestsFound,
  asked: Asked,
): Pick<TestsToMake, 'open' | 'tests' | 'fewest' | 'best' | 'notHeld'> {
  const told = [...new Set([...found.fewest.chosen, ...found.best.chosen])].toSorted(
    (a, b) => a - b,
  );
  const choice = ({ chosen, held, proven, bound }: Choice): TestChoice => ({
    ...{ tests: chosen.map((at) => told.indexOf(at)), welds: held, proven, bound },
  });
  const byName = new Map(asked.open.map((weld) => [weld.name, weld.weld]));
  return {
    open: asked.open.length,
    tests: told.flatMap((at) => {
      const test = found.tests[at];
      return test === undefined ? [] : [testView(test, asked)];
    }),
    fewest: choice(found.fewest),
    best: choice(found.best),
    notHeld: found.notHeld.flatMap(({ weldId, variable }) => {
      const weld = byName.get(weldId);
      if (weld === undefined) return [];
      const words = missWords[variable](weld, asked.code);
      return [{ weld: weldId, variable: variableWords[variable], words }];
    }),
  };
}
