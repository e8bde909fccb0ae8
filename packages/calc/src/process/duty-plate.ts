import { bounds, firstRefusal } from '../quantities.js';
import {
  calculated,
  refused,
  type ArgumentRefusal,
  type CalculationInParts,
  type Warning,
} from '../result.js';

/** One point of a rating plate. */
export interface PlatePoint {
  dutyPct: number;
  currentA: number;
}

interface PlateInputs {
  points: readonly PlatePoint[];
  dutyPct: number;
}

const mostPoints = 20;

function pointsRefusal(points: readonly PlatePoint[], name: string): ArgumentRefusal | null {
  if (!Array.isArray(points) || points.length === 0 || points.length > mostPoints) {
    const allowed = `a list of 1 to ${mostPoints} points of the plate`;
    return { argument: name, given: points, allowed };
  }
  const refusal = firstRefusal(
    points.flatMap(
      (point, index) =>
        [
          [`${name}[${index}].dutyPct`, point.dutyPct, bounds.dutyPct],
          [`${name}[${index}].currentA`, point.currentA, bounds.currentA],
        ] as const,
    ),
  );
  if (refusal) return refusal;
  const wrong = points.findIndex((point, index) =>
    points.some(
      (other, at) =>
        (at !== index && other.dutyPct === point.dutyPct) ||
        (other.dutyPct < point.dutyPct && other.currentA < point.currentA),
    ),
  );
  if (wrong < 0) return null;
  return {
    argument: `${name}[${wrong}]`,
    given: points[wrong],
    allowed: 'one current for each duty, not more current at more duty',
  };
}

/** Current in A at a duty by one point or more, and whether it lies between points of the plate. */
function readPlate(points: readonly PlatePoint[], dutyPct: number) {
  const sorted = points.toSorted((a, b) => a.dutyPct - b.dutyPct);
  const above = sorted.findIndex((point) => point.dutyPct >= dutyPct);
  if (above < 0) {
    const last = sorted.at(-1) as PlatePoint;
    return { currentA: last.currentA * Math.sqrt(last.dutyPct / dutyPct), printed: false };
  }
  const to = sorted[above] as PlatePoint;
  const from = sorted[above - 1];
  if (from === undefined) return { currentA: to.currentA, printed: true };
  const power = Math.log(to.currentA / from.currentA) / Math.log(to.dutyPct / from.dutyPct);
  return { currentA: from.currentA * (dutyPct / from.dutyPct) ** power, printed: true };
}

interface PlateParts {
  /** Never to be exceeded, however short the arc: the current of the plate's lowest duty. */
  ratedMaximumA: number;
}

/**
 * Current in A that a rating plate allows at a duty (%): between two of its points on the power law through both,
 * below the lowest duty the plate's largest current and never more. Above its highest duty the square-root rule
 * goes on from the last point, careful against three printed plates, and a warning says so. Source: IEC 60974-1.
 */
export function plateCurrent(inputs: PlateInputs): CalculationInParts<PlateInputs, PlateParts> {
  const refusal =
    pointsRefusal(inputs.points, 'points') ??
    firstRefusal([['dutyPct', inputs.dutyPct, bounds.dutyPct]]);
  if (refusal) return refused(refusal);
  return plateAnswer(inputs);
}

function plateAnswer(inputs: PlateInputs) {
  const read = readPlate(inputs.points, inputs.dutyPct);
  return {
    ...calculated({
      value: read.currentA,
      unit: 'A',
      inputs,
      sources: ['iec60974', 'dutyRule'],
      warnings: read.printed ? [] : [{ code: 'ruleOfThumb', given: null } satisfies Warning],
    }),
    parts: { ratedMaximumA: Math.max(...inputs.points.map(({ currentA }) => currentA)) },
  };
}

interface ChainInputs {
  /** What the current runs through: source, torch, cable, cooler, each with its own plate. */
  links: readonly { name: string; points: readonly PlatePoint[] }[];
  dutyPct: number;
}

interface ChainParts {
  limitedBy: string;
  links: readonly { name: string; currentA: number }[];
}

/** Current in A that source, torch and everything between allow at a duty: the least of their plates, by name. */
export function chainCurrent(inputs: ChainInputs): CalculationInParts<ChainInputs, ChainParts> {
  const { links, dutyPct } = inputs;
  if (!Array.isArray(links) || links.length === 0) {
    return refused({ argument: 'links', given: links, allowed: 'a list of 1 link or more' });
  }
  const refusal = firstRefusal([['dutyPct', dutyPct, bounds.dutyPct]]);
  if (refusal) return refused(refusal);
  const read: { name: string; currentA: number; warnings: readonly Warning[] }[] = [];
  for (const [index, { name, points }] of inputs.links.entries()) {
    const wrong = pointsRefusal(points, `links[${index}].points`);
    if (wrong) return refused(wrong);
    const { value: currentA, warnings } = plateAnswer({ points, dutyPct });
    read.push({ name, currentA, warnings });
  }
  const least = read.reduce((low, link) => (link.currentA < low.currentA ? link : low));
  return {
    ...calculated({
      value: least.currentA,
      unit: 'A',
      inputs,
      sources: ['iec60974', 'dutyRule'],
      warnings: least.warnings,
    }),
    parts: {
      limitedBy: least.name,
      links: read.map(({ name, currentA }) => ({ name, currentA })),
    },
  };
}
