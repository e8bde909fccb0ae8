import type { Compared, MeasuredShop } from './measure-shop.js';
import { found, job } from './weld-fit.js';
import { openWelds, type TestsFigure } from './tests-to-make.js';
import { operations, type OperationName } from './operations.js';

export interface Report {
  readonly machine: { readonly node: string; readonly cpus: number; readonly cpu: string };
  readonly tookS: number;
  readonly shops: { readonly one: MeasuredShop; readonly three: MeasuredShop };
  /** Median of three years over median of one year. */
  readonly growth: Record<OperationName, { readonly api: number; readonly raw: number }>;
  readonly memory: { readonly peakMb: number | null; readonly targetMb: number };
  readonly weldFitUs: number;
  /** Every weld of a job against its procedure and everybody who might take it. */
  readonly jobFitMs: number;
  /** From the geometry of a weld to its fit. */
  readonly wholeWeldUs: number;
  /** Every weld of a large shop against every procedure, on one core. */
  readonly findProceduresS: number;
  readonly testsToMake: TestsFigure;
}

const names = Object.keys(operations) as OperationName[];
const targetMb = 300;
const targetWeldUs = 20;
const targetJobMs = 1;
const targetFindS = 2;
const targetTestsS = 5;

export function reportOf(
  shops: Report['shops'],
  rest: Omit<Report, 'shops' | 'growth' | 'memory'>,
): Report {
  const times = (of: number, to: number) => Math.round((to / of) * 100) / 100;
  const growth = Object.fromEntries(
    names.map((name) => {
      const [one, three] = [shops.one.operations[name], shops.three.operations[name]];
      return [
        name,
        {
          api: times(one.api.p50Ms, three.api.p50Ms),
          raw: times(one.raw.p50Ms, three.raw.p50Ms),
        },
      ];
    }),
  ) as Report['growth'];
  const { peakMb } = shops.three;
  return { ...rest, shops, growth, memory: { peakMb, targetMb } };
}

export function inWords(report: Report): string {
  const { shops, growth, memory, machine } = report;
  const lines = [shops.one, shops.three].flatMap((shop) => [
    '',
    `${shop.size.years} year(s): ${shop.size.parts} parts, ${shop.size.jobs} jobs, ${shop.size.runs} runs, ` +
      `${shop.size.events} events, ${shop.size.waiting} steps waiting, ${shop.fileMb} MB`,
    line('milliseconds', ['p50', 'p95', 'p99', 'raw p50', 'raw p95', 'raw p99', 'ratio', 'target']),
    ...names.map((name) => line(operations[name].words, cells(shop.operations[name]))),
  ]);
  const grown = names.map(
    (name) => `${operations[name].words} ${growth[name].api}x (raw ${growth[name].raw}x)`,
  );
  const memoryWords = memory.peakMb === null ? 'not known here' : `${memory.peakMb} MB`;
  return [
    ...lines,
    '',
    `from one year to three: ${grown.join(', ')}`,
    `peak memory of the service: ${memoryWords} (target below ${memory.targetMb} MB)`,
    `one weld against its procedure: ${report.weldFitUs} µs; from its geometry to its fit: ${report.wholeWeldUs} µs ` +
      `(target below ${targetWeldUs} µs)`,
    `one job of ${job.welds} welds against ${job.people} people: ${report.jobFitMs} ms (target below ${targetJobMs} ms)`,
    `${found.welds} welds against ${found.procedures} procedures: ${report.findProceduresS} s (target below ${targetFindS} s)`,
    testsWords(report.testsToMake),
    `${machine.cpus} x ${machine.cpu}, Node ${machine.node}; took ${report.tookS} s`,
    '',
  ].join('\n');
}

function testsWords({ seconds, tests, atLeast, proven }: TestsFigure): string {
  const sure = proven ? 'proven' : `at least ${atLeast}`;
  return `fewest tests for ${openWelds} open welds: ${tests} (${sure}) in ${seconds} s (target below ${targetTestsS} s, or the best found)`;
}

function cells({ api, raw, ratio, target }: Compared): string[] {
  const three = (figures: Compared['api']) => [figures.p50Ms, figures.p95Ms, figures.p99Ms];
  return [
    ...[...three(api), ...three(raw)].map((ms) => ms.toFixed(2)),
    `${ratio.toFixed(2)}x`,
    ratio <= target ? `${target}x met` : `${target}x missed`,
  ];
}

function line(head: string, rest: readonly string[]): string {
  return head.padEnd(20) + rest.map((text) => text.padStart(11)).join('');
}
