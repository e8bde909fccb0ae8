import { resultOfNumber, type Range } from '../range.js';

/** A procedure or a person with what they hold. */
export interface Holder {
  id: string;
  kind: 'procedure' | 'person';
  processes: readonly string[];
  positions: readonly string[];
  thicknessMm: Range | null;
}
export interface NeededWeld {
  id: string;
  process: string;
  position: string;
  thicknessesMm: readonly number[];
}

export interface CoverageCell {
  position: string;
  /** Above `fromMm`, up to `toMm`; an open end is null. */
  fromMm: number | null;
  toMm: number | null;
  /** Who holds the whole of the step. */
  procedures: readonly string[];
  people: readonly string[];
  /** Welds whose thickest part falls in the step. */
  welds: readonly string[];
  /** Of them, those that no single procedure, or no single person, holds. */
  withoutProcedure: readonly string[];
  withoutPerson: readonly string[];
}
export interface ProcessCoverage {
  process: string;
  positions: readonly string[];
  cells: readonly CoverageCell[];
  /** Holders of the process that state no thickness range, and welds without a thickness: not in the picture. */
  notPlaced: readonly string[];
}

const plain = (text: string) => text.trim().toUpperCase();
const has = (list: readonly string[], word: string) => list.map(plain).includes(plain(word));
const isLimited = ({ thicknessMm }: Holder) =>
  thicknessMm !== null && (thicknessMm.min !== null || thicknessMm.max !== null);

function edgesOf(holders: readonly Holder[]): number[] {
  const limits = holders.flatMap(({ thicknessMm }) => [thicknessMm?.min, thicknessMm?.max]);
  const numbers = limits.filter((limit): limit is number => typeof limit === 'number');
  return [...new Set(numbers)].toSorted((a, b) => a - b);
}

function holdsStep({ thicknessMm }: Holder, fromMm: number | null, toMm: number | null): boolean {
  const { min = null, max = null } = thicknessMm ?? {};
  const low = min === null || (fromMm !== null && fromMm >= min);
  return low && (max === null || (toMm !== null && toMm <= max));
}

function holdsWeld(holder: Holder, { position, thicknessesMm }: NeededWeld): boolean {
  return (
    has(holder.positions, position) &&
    thicknessesMm.every((mm) => resultOfNumber(mm, holder.thicknessMm) === 'inside')
  );
}

function isInStep(weld: NeededWeld, fromMm: number | null, toMm: number | null): boolean {
  const thickest = Math.max(...weld.thicknessesMm);
  return (fromMm === null || thickest > fromMm) && (toMm === null || thickest <= toMm);
}

function uniqueWords(words: readonly string[]): string[] {
  const byPlain = new Map(words.map((word) => [plain(word), word.trim()]));
  return [...byPlain.values()].toSorted();
}

const ids = (list: readonly { id: string }[]) => list.map(({ id }) => id);

function pictureOf(
  process: string,
  all: { holders: readonly Holder[]; welds: readonly NeededWeld[] },
): ProcessCoverage {
  const ofProcess = all.holders.filter(({ processes }) => has(processes, process));
  const holders = ofProcess.filter(isLimited);
  const wanted = all.welds.filter((weld) => plain(weld.process) === plain(process));
  const welds = wanted.filter(({ thicknessesMm }) => thicknessesMm.length > 0);
  const edges = edgesOf(holders);
  const steps = [null, ...edges].map((fromMm, at) => ({ fromMm, toMm: edges[at] ?? null }));
  const positions = uniqueWords([
    ...holders.flatMap((holder) => holder.positions),
    ...welds.map(({ position }) => position),
  ]);
  const cells = positions.flatMap((position) => {
    const inPosition = holders.filter((holder) => has(holder.positions, position));
    const kept = (kind: Holder['kind']) => inPosition.filter((holder) => holder.kind === kind);
    const needed = welds.filter((weld) => plain(weld.position) === plain(position));
    const lacking = (kind: Holder['kind'], among: readonly NeededWeld[]) =>
      ids(among.filter((weld) => !kept(kind).some((holder) => holdsWeld(holder, weld))));
    return steps.map(({ fromMm, toMm }): CoverageCell => {
      const inStep = needed.filter((weld) => isInStep(weld, fromMm, toMm));
      const whole = (kind: Holder['kind']) =>
        ids(kept(kind).filter((holder) => holdsStep(holder, fromMm, toMm)));
      return {
        ...{ position, fromMm, toMm, procedures: whole('procedure'), people: whole('person') },
        welds: ids(inStep),
        withoutProcedure: lacking('procedure', inStep),
        withoutPerson: lacking('person', inStep),
      };
    });
  });
  const notPlaced = [
    ...ids(ofProcess.filter((holder) => !isLimited(holder))),
    ...ids(wanted.filter(({ thicknessesMm }) => thicknessesMm.length === 0)),
  ];
  return { process, positions, cells, notPlaced };
}

/**
 * Thickness against position, per process: who holds each step, which welds fall in it, and which of them nobody
 * holds. The steps run between the limits on file.
 */
export function coveragePicture(facts: {
  holders: readonly Holder[];
  welds: readonly NeededWeld[];
}): ProcessCoverage[] {
  const processes = uniqueWords([
    ...facts.holders.flatMap((holder) => holder.processes),
    ...facts.welds.map(({ process }) => process),
  ]);
  return processes.map((process) => pictureOf(process, facts));
}
