import { boardSteps, boardTargets, type BoardScreenFigures } from './board-screen.js';
import {
  cellScreenTargets,
  slowerBy,
  type CellScreenFigures,
  type ScreenTimes,
} from './cell-screen.js';
import type { Compared, MeasuredShop } from './measure-shop.js';
import type { Figures } from './figures.js';
import { found, job } from './weld-fit.js';
import { openWelds, type TestsFigure } from './tests-to-make.js';
import { operations, type OperationName } from './operations.js';
import { orderCells, orderSteps, orderTargets, type OrderFigures } from './order-of-work.js';

/** What was measured, row by row. */
export interface Measured {
  readonly shops: { readonly one: MeasuredShop; readonly three: MeasuredShop };
  readonly welds: {
    readonly weldFitUs: number;
    /** Every weld of a job against its procedure and everybody who might take it. */
    readonly jobFitMs: number;
    /** From the geometry of a weld to its fit. */
    readonly wholeWeldUs: number;
    /** Every weld of a large shop against every procedure, on one core. */
    readonly findProceduresS: number;
  };
  readonly testsToMake: TestsFigure;
  readonly orderOfWork: OrderFigures;
  readonly boardScreen: BoardScreenFigures;
  readonly cellScreen: CellScreenFigures;
}

interface Around {
  readonly machine: { readonly node: string; readonly cpus: number; readonly cpu: string };
  readonly tookS: number;
}

export interface Report extends Partial<Measured>, Around {
  /** Median of three years over median of one year. */
  readonly growth?: Growth;
  readonly memory?: { readonly peakMb: number | null; readonly targetMb: number };
}

type Growth = Record<OperationName, { readonly api: number; readonly raw: number }>;

const names = Object.keys(operations) as OperationName[];
const targetMb = 300;
const targetWeldUs = 20;
const targetJobMs = 1;
const targetFindS = 2;
const targetTestsS = 5;

export function reportOf(measured: Partial<Measured>, around: Around): Report {
  const { shops } = measured;
  if (shops === undefined) return { ...measured, ...around };
  const { peakMb } = shops.three;
  return { ...measured, ...around, growth: growthOf(shops), memory: { peakMb, targetMb } };
}

function growthOf(shops: Measured['shops']): Growth {
  const times = (of: number, to: number) => Math.round((to / of) * 100) / 100;
  return Object.fromEntries(
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
  ) as Growth;
}

export function inWords(report: Report): string {
  const { shops, welds, testsToMake, orderOfWork, boardScreen, cellScreen, machine, tookS } =
    report;
  return [
    ...(shops === undefined ? [] : shopLines(shops, report)),
    ...(welds === undefined ? [] : weldLines(welds)),
    ...(testsToMake === undefined ? [] : [testsWords(testsToMake)]),
    ...(orderOfWork === undefined ? [] : orderLines(orderOfWork)),
    ...(boardScreen === undefined ? [] : boardLines(boardScreen)),
    ...(cellScreen === undefined ? [] : cellLines(cellScreen)),
    `${machine.cpus} x ${machine.cpu}, Node ${machine.node}; took ${tookS} s`,
    '',
  ].join('\n');
}

function shopLines(shops: Measured['shops'], { growth, memory }: Report): string[] {
  const lines = [shops.one, shops.three].flatMap((shop) => [
    '',
    `${shop.size.years} year(s): ${shop.size.parts} parts, ${shop.size.jobs} jobs, ${shop.size.runs} runs, ` +
      `${shop.size.events} events, ${shop.size.waiting} steps waiting, ${shop.fileMb} MB`,
    line('milliseconds', ['p50', 'p95', 'p99', 'raw p50', 'raw p95', 'raw p99', 'ratio', 'target']),
    ...names.map((name) => line(operations[name].words, cells(shop.operations[name]))),
  ]);
  const grown = names.map(
    (name) => `${operations[name].words} ${growth?.[name].api}x (raw ${growth?.[name].raw}x)`,
  );
  const { peakMb } = shops.three;
  return [
    ...lines,
    '',
    `from one year to three: ${grown.join(', ')}`,
    `peak memory of the service: ${peakMb === null ? 'not known here' : `${peakMb} MB`} (target below ${memory?.targetMb} MB)`,
  ];
}

function weldLines(welds: Measured['welds']): string[] {
  return [
    `one weld against its procedure: ${welds.weldFitUs} µs; from its geometry to its fit: ${welds.wholeWeldUs} µs ` +
      `(target below ${targetWeldUs} µs)`,
    `one job of ${job.welds} welds against ${job.people} people: ${welds.jobFitMs} ms (target below ${targetJobMs} ms)`,
    `${found.welds} welds against ${found.procedures} procedures: ${welds.findProceduresS} s (target below ${targetFindS} s)`,
  ];
}

const met = (value: number, target: number) => (value < target ? 'met' : 'missed');
const rounded = ({ p50Ms, p95Ms, p99Ms }: Figures) =>
  [p50Ms, p95Ms, p99Ms].map((ms) => ms.toFixed(2));
const three = (figures: Figures) => rounded(figures).join(' / ');

function orderLines(order: OrderFigures): string[] {
  const { evaluateMs, layOutMs, firstProposalMs, idle, searching, ratio } = order;
  const targets = orderTargets;
  return [
    `order of work, ${orderCells} cells, ${orderSteps} steps: walked and costed in ${evaluateMs} ms ` +
      `(target below ${targets.evaluateMs} ms, ${met(evaluateMs, targets.evaluateMs)}); laid out before that in ${layOutMs} ms`,
    `first proposal after ${firstProposalMs} ms at the longest ` +
      `(target ${targets.firstProposalMs} ms, ${met(firstProposalMs, targets.firstProposalMs)})`,
    `board and card reads, p50 / p95 / p99 of ${idle.count}: ${three(idle)} ms idle, ${three(searching)} ms while searching; ` +
      `p99 ${ratio}x (target below ${targets.ratio}x, ${met(ratio, targets.ratio)})`,
  ];
}

function boardLines({ repaint, screens, frames, framesFew, ratio }: BoardScreenFigures): string[] {
  const targets = boardTargets;
  return [
    `a move on a board of ${boardSteps} steps, p50 / p95 / p99 of ${repaint.count}: painted on the slowest of ${screens} screens after ${three(repaint)} ms ` +
      `(target below ${targets.repaintMs} ms, ${met(repaint.p95Ms, targets.repaintMs)} by the p95)`,
    `frame to frame while it is scrolled and dragged over: ${three(frames)} ms, with a tenth of the steps ${three(framesFew)} ms; ` +
      `p95 ${ratio}x (mark below ${targets.ratio}x, ${met(ratio, targets.ratio)})`,
  ];
}

function cellLines({ taps, firstPaint, firstPaintSlow }: CellScreenFigures): string[] {
  const { tapMs, firstPaintMs } = cellScreenTargets;
  const row = (name: string, times: ScreenTimes, targetMs?: number) =>
    line(name, [
      ...[times.p50Ms, times.p95Ms, times.slowestMs].map((ms) => ms.toFixed(1)),
      targetMs === undefined
        ? 'none'
        : `${targetMs} ${times.slowestMs < targetMs ? 'met' : 'missed'}`,
    ]);
  return [
    '',
    `the screen of a cell, milliseconds, the processor ${slowerBy} times slower`,
    line('tap', ['p50', 'p95', 'slowest', 'target']),
    ...Object.entries(taps).map(([name, times]) => row(name, times, tapMs)),
    row('first paint', firstPaintSlow),
    'opened again from the service worker at full speed',
    row('first paint', firstPaint, firstPaintMs),
  ];
}

function testsWords({ seconds, tests, atLeast, proven }: TestsFigure): string {
  const sure = proven ? 'proven' : `at least ${atLeast}`;
  return `fewest tests for ${openWelds} open welds: ${tests} (${sure}) in ${seconds} s (target below ${targetTestsS} s, or the best found)`;
}

function cells({ api, raw, ratio, target }: Compared): string[] {
  return [
    ...[...rounded(api), ...rounded(raw)],
    `${ratio.toFixed(2)}x`,
    ratio <= target ? `${target}x met` : `${target}x missed`,
  ];
}

function line(head: string, rest: readonly string[]): string {
  return head.padEnd(20) + rest.map((text) => text.padStart(11)).join('');
}
