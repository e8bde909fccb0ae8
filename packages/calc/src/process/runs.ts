import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation, type CalculationInParts } from '../result.js';

/** Keeps an exact filling from asking for one run more by the last binary digit. */
const wholeTolerance = 1e-9;

const turned = {
  PA: 'flat',
  PB: 'horizontal',
  PC: 'horizontal',
  PD: 'overhead',
  PE: 'overhead',
  PF: 'vertical',
  PG: 'vertical',
} as const;

/** Largest leg in mm of a fillet in one run, by how the weld lies. */
const limits = {
  stick: { flat: 10, horizontal: 8, vertical: 12, overhead: 8 },
  wire: { flat: 12, horizontal: 10, vertical: 12, overhead: 8 },
};

const families: Readonly<Record<string, keyof typeof limits>> = {
  '111': 'stick',
  '114': 'wire',
  '131': 'wire',
  '135': 'wire',
  '136': 'wire',
  '138': 'wire',
};

interface LimitInputs {
  /** Process number of ISO 4063. */
  process: string;
  /** Position of ISO 6947. */
  position: string;
}

/**
 * Largest leg in mm that one run may lay in a fillet, by process and position. AWS D1.1's prequalified maximum
 * sizes, from memory: the shop's own limit comes before it. Refuses a process or position without one.
 */
export function singleRunLimit(inputs: LimitInputs): Calculation<LimitInputs> {
  const { process, position } = inputs;
  if (!Object.hasOwn(families, process)) {
    const allowed = `a process with a limit: ${Object.keys(families).join(', ')}`;
    return refused({ argument: 'process', given: process, allowed });
  }
  if (!Object.hasOwn(turned, position)) {
    const allowed = `one of ${Object.keys(turned).join(', ')}`;
    return refused({ argument: 'position', given: position, allowed });
  }
  const family = families[process] as keyof typeof limits;
  const value = limits[family][turned[position as keyof typeof turned]];
  return calculated({
    value,
    unit: 'mm',
    inputs,
    sources: ['singleRun'],
    warnings: [{ code: 'limitFromMemory', given: value }],
  });
}

interface AreaInputs {
  areaMm2: number;
  /** Largest area of one run, by the shop's own experience. */
  runAreaMm2: number;
}

function wholeRuns(areaMm2: number, runAreaMm2: number): number {
  return Math.max(1, Math.ceil((areaMm2 / runAreaMm2) * (1 - wholeTolerance)));
}

/** Runs that an area (mm2) needs, rounded up; root and cap runs that a procedure asks for come on top. */
export function runsForArea(inputs: AreaInputs): Calculation<AreaInputs> {
  const refusal = firstRefusal([
    ['areaMm2', inputs.areaMm2, bounds.areaMm2],
    ['runAreaMm2', inputs.runAreaMm2, bounds.areaMm2],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: wholeRuns(inputs.areaMm2, inputs.runAreaMm2),
    unit: 'runs',
    inputs,
    sources: ['geometry'],
  });
}

type FilletRunInputs = LimitInputs & {
  legMm: number;
  /** The shop's own limit of one run in place of the table's. */
  limitLegMm?: number | undefined;
};

/** Runs that a flat fillet of a leg (mm) needs, rounded up: (leg / limit of one run)^2. */
export function filletRuns(
  inputs: FilletRunInputs,
): CalculationInParts<FilletRunInputs, { limitLegMm: number }> {
  const { legMm, process, position, limitLegMm } = inputs;
  const refusal = firstRefusal([
    ['legMm', legMm, bounds.sectionMm],
    ...(limitLegMm === undefined ? [] : [['limitLegMm', limitLegMm, bounds.sectionMm] as const]),
  ]);
  if (refusal) return refused(refusal);
  const table = limitLegMm === undefined ? singleRunLimit({ process, position }) : null;
  if (table && !table.ok) return table;
  const limit = table?.value ?? limitLegMm ?? legMm;
  return {
    ...calculated({
      value: wholeRuns(legMm ** 2, limit ** 2),
      unit: 'runs',
      inputs,
      sources: table ? ['geometry', 'singleRun'] : ['geometry'],
      warnings: table?.warnings ?? [],
    }),
    parts: { limitLegMm: limit },
  };
}
