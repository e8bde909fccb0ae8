import { filletLeg, filletThroat } from '@tackboard/calc';
import type { FirstPieceSize, FirstPieceTask, Weld } from '@tackboard/contract';

type Scope = FirstPieceTask['scope'];
type Limits = FirstPieceTask['sizes'][number];

/** What a part was made with; null where it was made without, such as a booth without a program. */
export interface Circumstances {
  readonly partRevision: string;
  readonly cellCode: string;
  readonly program: string | null;
  readonly fixture: string | null;
  readonly wire: string | null;
  readonly wps: string | null;
}

/** After so many months without the part the check is full again; common practice, two years. */
const longestGapMonths = 24;
const msPerMonth = (365.25 / 12) * 86_400_000;

const named = [
  ['partRevision', 'part revision'],
  ['cellCode', 'cell'],
  ['program', 'program'],
  ['fixture', 'fixture'],
  ['wire', 'wire'],
  ['wps', 'WPS'],
] as const satisfies readonly (readonly [keyof Circumstances, string])[];

/**
 * Short or full, with the reason in words. Short only when the last good run of the step was made the same way, by
 * somebody who knows the part, less than 24 months ago.
 */
export function scopeOf(facts: {
  readonly now: Circumstances & { readonly at: Date };
  readonly last: (Circumstances & { readonly at: Date; readonly jobNumber: number }) | null;
  /** The holder has made good parts of this step before. */
  readonly personKnowsPart: boolean;
  readonly personCode: string;
}): { scope: Scope; reasons: string[] } {
  const { now, last, personKnowsPart, personCode } = facts;
  if (last === null) {
    return { scope: 'full', reasons: ['No first piece of this step has passed before.'] };
  }
  const changed = named
    .filter(([key]) => now[key] !== last[key])
    .map(([key, word]) => `The ${word} is ${now[key] ?? 'none'}; it was ${last[key] ?? 'none'}.`);
  const months = (now.at.getTime() - last.at.getTime()) / msPerMonth;
  const reasons = [
    ...changed,
    ...(personKnowsPart ? [] : [`${personCode} has not made this part before.`]),
    ...(months < longestGapMonths
      ? []
      : [`The last good run was ${Math.floor(months)} months ago.`]),
  ];
  if (reasons.length > 0) return { scope: 'full', reasons };
  return {
    scope: 'short',
    reasons: [`Nothing has changed since the last good run, job ${last.jobNumber}.`],
  };
}

type SizedWeld = Pick<
  Weld,
  'number' | 'jointType' | 'throatMm' | 'legMm' | 'sizeUnderMm' | 'sizeOverMm'
>;

/**
 * What each weld with a drawn throat a or leg z may measure, in mm: not under nominal unless the weld list says how
 * far. A full check measures every weld, a short one the first. A fillet may be measured either way: z = a sqrt 2.
 */
export function sizesToMeasure(welds: readonly SizedWeld[], scope: Scope): Limits[] {
  const sized = welds.filter(({ throatMm, legMm }) => throatMm !== null || legMm !== null);
  return (scope === 'full' ? sized : sized.slice(0, 1)).flatMap(limitsOf);
}

function limitsOf(weld: SizedWeld): Limits[] {
  const { number: weldNumber, sizeUnderMm, sizeOverMm } = weld;
  return (['throat', 'leg'] as const).flatMap((measure) => {
    const nominalMm = nominalOf(weld, measure);
    if (nominalMm === null) return [];
    return {
      ...{ weldNumber, measure, nominalMm },
      lowestMm: nominalMm - (sizeUnderMm ?? 0),
      highestMm: sizeOverMm === null ? null : nominalMm + sizeOverMm,
    };
  });
}

function nominalOf({ jointType, throatMm, legMm }: SizedWeld, measure: 'throat' | 'leg') {
  const drawn = measure === 'throat' ? throatMm : legMm;
  if (drawn !== null || jointType !== 'fillet') return drawn;
  const other =
    measure === 'throat'
      ? legMm === null
        ? null
        : filletThroat({ legMm })
      : throatMm === null
        ? null
        : filletLeg({ throatMm });
  return other?.ok === true ? other.value : null;
}

/** A measured size beside its limits; null where the weld has no such size. */
export function measured(
  limits: readonly Limits[],
  size: Pick<FirstPieceSize, 'weldNumber' | 'measure' | 'measuredMm'>,
): FirstPieceSize | null {
  const found = limits.find(
    ({ weldNumber, measure }) => weldNumber === size.weldNumber && measure === size.measure,
  );
  if (found === undefined) return null;
  const { lowestMm, highestMm } = found;
  const { measuredMm } = size;
  const inside = measuredMm >= lowestMm && (highestMm === null || measuredMm <= highestMm);
  return { ...found, measuredMm, inside };
}

/** Welds whose size is still to be measured. */
export function unmeasured(
  limits: readonly Limits[],
  sizes: readonly Pick<FirstPieceSize, 'weldNumber'>[],
): number[] {
  const done = new Set(sizes.map(({ weldNumber }) => weldNumber));
  return [...new Set(limits.map(({ weldNumber }) => weldNumber))].filter((one) => !done.has(one));
}

/** Passed only with every size inside and the visual test accepted; QA may still have to sign. */
export function resultOf(check: {
  readonly sizes: readonly Pick<FirstPieceSize, 'inside'>[];
  readonly visual: 'accepted' | 'rejected';
  readonly twoPersons: boolean;
}): 'passed' | 'failed' | 'waitingQa' {
  const good = check.visual === 'accepted' && check.sizes.every(({ inside }) => inside);
  if (!good) return 'failed';
  return check.twoPersons ? 'waitingQa' : 'passed';
}

/** The strictest level of the welds of a step: B before C before D (ISO 5817). */
export function strictestLevel(welds: readonly Pick<Weld, 'qualityLevel'>[]): 'B' | 'C' | 'D' {
  const levels = welds.map(({ qualityLevel }) => qualityLevel);
  if (levels.includes('B')) return 'B';
  return levels.includes('C') || levels.length === 0 ? 'C' : 'D';
}
