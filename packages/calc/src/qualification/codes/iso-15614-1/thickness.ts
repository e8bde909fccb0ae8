import type { ProcedureTest } from '../records.js';
import { rowsFor, type Band, type Given, type RangeRule } from '../rule.js';
import type { SourceId } from '../../../sources/index.js';
import { stepOf, type Step } from '../steps.js';

const row = rowsFor<ProcedureTest>();

function isButt({ jointType }: Pick<ProcedureTest, 'jointType'>): boolean {
  return jointType === 'butt' || jointType === 'tButt';
}
export function isFillet({ jointType }: Pick<ProcedureTest, 'jointType'>): boolean {
  return jointType === 'fillet';
}

const notOnFile = {
  cannotSay: 'the table gives no range for a test piece like this',
} as const;

type Spread = (tMm: number) => Band;

const multiRun: readonly Step<Spread>[] = [
  { upTo: 3, give: (t) => ({ min: 0.7 * t, max: 2 * t }) },
  { upTo: 12, give: (t) => ({ min: 3, max: 2 * t }) },
  { upTo: 100, give: (t) => ({ min: 0.5 * t, max: 2 * t }) },
];
const singleRun: readonly Step<Spread>[] = [
  { upTo: 3, give: (t) => ({ min: 0.7 * t, max: 1.3 * t }) },
  { upTo: 12, give: (t) => ({ min: Math.max(0.5 * t, 3), max: 1.3 * t }) },
  { upTo: 100, give: (t) => ({ min: 0.5 * t, max: 1.1 * t }) },
];

const impactCapMm = 12;

type ForImpact = Pick<ProcedureTest, 'impactRequired' | 'impactTested'>;

/**
 * Without an impact test a product that demands impact properties is covered to 12 mm only. The note belongs to the
 * row over 3 to 12 mm; above it nothing is said about a test piece without impact tests.
 */
function withImpactNote(
  tMm: number,
  band: Band,
  { impactRequired, impactTested }: ForImpact,
): Given {
  if (tMm <= 3 || impactTested === true || impactRequired === false) return { band };
  if (tMm > impactCapMm) {
    return { cannotSay: 'impact properties may be required and no impact test is on the record' };
  }
  const capped = { ...band, max: Math.min(band.max ?? impactCapMm, impactCapMm) };
  return impactRequired === true && impactTested === false
    ? { band: capped }
    : { band: capped, unsure: band };
}

interface Edition {
  clause: string;
  source: SourceId;
  /** Above this single-run thickness the limits of the edition are not known surely. */
  singleSureUpToMm: number;
}

/** Parent thickness of a butt weld, by test piece thickness and runs. */
export function buttThickness({
  clause,
  source,
  singleSureUpToMm,
}: Edition): RangeRule<ProcedureTest>[] {
  const common = { variable: 'thickness', unit: 'mm', clause, source } as const;
  const needs = ['thicknessMm', 'runs'] as const;
  const isUnsure = ({ thicknessMm, runs }: ProcedureTest) =>
    thicknessMm !== null && runs === 'single' && thicknessMm > singleSureUpToMm;
  return [
    row({
      ...common,
      confidence: 'low',
      applies: (test) => isButt(test) && isUnsure(test),
      needs,
      give: ({ thicknessMm }) => {
        const spread = stepOf(singleRun, thicknessMm);
        return spread === null ? notOnFile : { band: spread(thicknessMm) };
      },
    }),
    row({
      ...common,
      confidence: 'low',
      applies: (test) => isButt(test) && test.runs === 'multi' && (test.thicknessMm ?? 0) > 100,
      needs,
      give: ({ thicknessMm }) => ({ band: { min: 50, max: 2 * thicknessMm } }),
    }),
    row({
      ...common,
      confidence: 'medium',
      applies: isButt,
      needs,
      give: (test) => {
        const { thicknessMm, runs } = test;
        const spread = stepOf(runs === 'multi' ? multiRun : singleRun, thicknessMm);
        if (spread === null) return notOnFile;
        return withImpactNote(thicknessMm, spread(thicknessMm), test);
      },
    }),
  ];
}

/**
 * Material thickness of a fillet weld. Between the limit of the older edition (1.2 t) and that of the newer one as
 * remembered (2 t), and between 3 mm and 0.5 t, the editions differ: neither inside nor outside.
 */
export function filletThickness({
  clause,
  source,
}: Omit<Edition, 'singleSureUpToMm'>): RangeRule<ProcedureTest> {
  return row({
    variable: 'thickness',
    unit: 'mm',
    clause,
    source,
    confidence: 'medium',
    applies: isFillet,
    needs: ['thicknessMm'],
    give: ({ thicknessMm: t }) => {
      if (t <= 3) return { band: { min: 0.7 * t, max: 2 * t } };
      if (t >= 30) return { band: { min: 5, max: null } };
      return {
        band: { min: Math.max(0.5 * t, 3), max: 1.2 * t },
        unsure: { min: 3, max: 2 * t },
      };
    },
  });
}

/** Throat of a fillet weld, by runs. */
export function filletThroat({
  clause,
  source,
}: Omit<Edition, 'singleSureUpToMm'>): RangeRule<ProcedureTest>[] {
  const common = { variable: 'throat', unit: 'mm', clause, source, confidence: 'medium' } as const;
  return [
    row({
      ...common,
      applies: (test) => isFillet(test) && test.runs === 'multi',
      needs: ['throatMm'],
      give: () => ({ any: true }),
    }),
    row({
      ...common,
      applies: isFillet,
      needs: ['throatMm', 'runs', 'thicknessMm'],
      give: ({ throatMm: a, thicknessMm }) => ({
        // From 30 mm on, each throat needs a test of its own.
        band: thicknessMm >= 30 ? { min: a, max: a } : { min: 0.75 * a, max: 1.5 * a },
      }),
    }),
    row({
      ...common,
      needs: [],
      give: () => ({
        cannotSay:
          'the throat of a fillet that a butt test covers follows the metal laid in that test',
      }),
    }),
  ];
}

/** Metal laid by one process; the column came with the edition of 2017. */
export function depositedThickness({ clause }: { clause: string }): RangeRule<ProcedureTest>[] {
  const common = { variable: 'depositedThickness', unit: 'mm', clause } as const;
  return [
    row({
      ...common,
      confidence: 'low',
      source: 'iso15614y2017',
      applies: (test) => isButt(test) && (test.depositedMm ?? 0) >= 20,
      needs: ['depositedMm', 'thicknessMm'],
      give: ({ thicknessMm: t }) => {
        if (t <= 40) return { band: { min: null, max: 2 * t } };
        return { band: { min: null, max: t <= 150 ? 200 : 1.33 * t } };
      },
    }),
    row({
      ...common,
      confidence: 'medium',
      source: 'iso15614Article',
      applies: isButt,
      needs: ['depositedMm'],
      give: ({ depositedMm }) => ({ band: { min: null, max: 2 * depositedMm } }),
    }),
  ];
}
