import { processLetters } from '../../designations/processes.js';
import type { ProcedureTest } from '../records.js';
import { rowsFor, type Band, type CodeRules, type Given, type RangeRule } from '../rule.js';
import { columnOf } from '../steps.js';
import { awsArc } from './essential.js';

const row = rowsFor<ProcedureTest>();
const isGroove = ({ jointType }: ProcedureTest) => jointType === 'butt' || jointType === 'tButt';

/** Clause 4 of 2015 became clause 6 in 2020. */
export interface AwsTables {
  edition: '2015' | '2020';
  positions: string;
  thickness: string;
  essential: string;
}

const eighth = { mm: 3, in: 1 / 8 };
const inch = { mm: 25, in: 1 };
const quarter = { mm: 6, in: 1 / 4 };
const fiveEighths = { mm: 16, in: 5 / 8 };

function plateThickness(test: ProcedureTest & { thicknessMm: number }): Given {
  const { limitMm } = columnOf(test.tableUnit);
  const { thicknessMm: t } = test;
  const least = limitMm(eighth);
  if (t < least - 1e-9) return { cannotSay: 'the table starts at 1/8 in (3 mm)' };
  const reach: Band = { min: least, max: t >= limitMm(inch) - 1e-9 ? null : 2 * t };
  const sure: Band = { ...reach };
  // A square groove without back gouging is covered to the tested thickness only.
  if (test.squareGroove !== false) sure.max = t;
  if (test.squareGroove === true && test.gouged === false) reach.max = t;
  if (test.squareGroove === true && test.gouged === true) sure.max = reach.max;
  const tough = t < limitMm(quarter) ? least : Math.min(t, limitMm(fiveEighths));
  if (test.impactRequired !== false) sure.min = tough;
  if (test.impactRequired === true) reach.min = tough;
  return { band: sure, unsure: reach };
}

/** Standard pipe coupons, outside diameter and wall in mm: NPS 2 sch 80, 3 sch 40, 6 sch 120, 8 sch 80. */
const pipeCoupons = [
  { odMm: 60.3, wallMm: 5.54, isSmall: true },
  { odMm: 88.9, wallMm: 5.49, isSmall: true },
  { odMm: 168.3, wallMm: 14.27, isSmall: false },
  { odMm: 219.1, wallMm: 12.7, isSmall: false },
] as const;
const couponRoomMm = 0.5;

function couponOf({ diameterMm, thicknessMm }: { diameterMm: number; thicknessMm: number }) {
  return pipeCoupons.find(
    ({ odMm, wallMm }) =>
      Math.abs(odMm - diameterMm) <= couponRoomMm && Math.abs(wallMm - thicknessMm) <= couponRoomMm,
  );
}

type PipeTest = ProcedureTest & { diameterMm: number; thicknessMm: number };

function pipeBand(test: PipeTest, limits: { small: PipeLimits; large: PipeLimits }): Given {
  const { limitMm } = columnOf(test.tableUnit);
  const coupon = couponOf(test);
  if (coupon === undefined)
    return { cannotSay: 'the test piece is none of the standard pipe coupons' };
  const { min, max } = coupon.isSmall ? limits.small : limits.large;
  return { band: { min: limitMm(min), max: max === null ? null : limitMm(max) } };
}
interface PipeLimits {
  min: { mm: number; in: number };
  max: { mm: number; in: number } | null;
}
const wall = {
  small: { min: eighth, max: { mm: 20, in: 3 / 4 } },
  large: { min: { mm: 5, in: 3 / 16 }, max: null },
};
const outside = {
  small: { min: { mm: 20, in: 3 / 4 }, max: { mm: 100, in: 4 } },
  large: { min: { mm: 100, in: 4 }, max: null },
};

/** Table 6.1: a plate position of a procedure covers itself, 2G also flat. Not the table of welders. */
const platePositions: Readonly<Record<string, readonly string[]>> = {
  '1G': ['F'],
  '2G': ['F', 'H'],
  '3G': ['V'],
  '4G': ['OH'],
};

function pieceRows(tables: AwsTables): RangeRule<ProcedureTest>[] {
  const memory = { confidence: 'medium', source: 'awsMemory' } as const;
  const inMm = { ...memory, unit: 'mm', clause: tables.thickness } as const;
  const isPipe = (test: ProcedureTest) => isGroove(test) && test.product === 'pipe';
  return [
    row({
      ...inMm,
      variable: 'thickness',
      applies: isPipe,
      needs: ['thicknessMm', 'diameterMm'],
      give: (test) => pipeBand(test, wall),
    }),
    row({
      ...inMm,
      variable: 'thickness',
      applies: isGroove,
      needs: ['thicknessMm', 'product'],
      give: plateThickness,
    }),
    row({
      ...inMm,
      variable: 'diameter',
      applies: isPipe,
      needs: ['diameterMm', 'thicknessMm'],
      give: (test) => pipeBand(test, outside),
    }),
    row({
      ...memory,
      variable: 'jointType',
      clause: tables.positions,
      needs: ['jointType'],
      give: ({ jointType }) => ({
        values:
          jointType === 'butt' || jointType === 'tButt'
            ? [jointType, 'partialButt', 'fillet']
            : [jointType],
      }),
    }),
    row({
      ...memory,
      variable: 'position',
      clause: tables.positions,
      applies: isGroove,
      needs: ['position'],
      // The coupon's own position goes by another name than the positions it covers.
      tested: () => [],
      give: ({ position, product }) => {
        const values =
          product === 'plate' ? platePositions[position.replace(/ .*/, '')] : undefined;
        return values === undefined
          ? { cannotSay: 'only the plate positions 1G to 4G are on file' }
          : { values };
      },
    }),
  ];
}

function processRow(tables: AwsTables): RangeRule<ProcedureTest> {
  return row({
    variable: 'process',
    clause: tables.essential,
    confidence: 'high',
    source: 'awsEssential',
    needs: ['process'],
    give: ({ process }) => {
      const letters = processLetters(process);
      return letters === null || letters === process
        ? { values: [process] }
        : { values: [process, letters] };
    },
  });
}

export function awsProcedures(tables: AwsTables): CodeRules<ProcedureTest> {
  return {
    code: 'AWS D1.1',
    edition: tables.edition,
    outOfScope: () => null,
    rows: [processRow(tables), ...pieceRows(tables), ...awsArc(tables)],
  };
}
