import { processLetters } from '../../designations/processes.js';
import type { WelderTest } from '../records.js';
import { isInBand } from '../judge.js';
import { rowsFor, type Band, type CodeRules, type Given, type RangeRule } from '../rule.js';
import { columnOf } from '../steps.js';

const row = rowsFor<WelderTest>();
const seen = { confidence: 'high', source: 'awsWelders' } as const;
const isGroove = ({ jointType }: WelderTest) => jointType === 'butt';

type Cover = Readonly<Record<string, readonly string[]>>;
const all = ['F', 'H', 'V', 'OH'];

/** Groove positions of a plate groove test. D1.1:2020, Table 6.10. */
const groove: Cover = {
  '1G': ['F'],
  '2G': ['F', 'H'],
  '3G': ['F', 'H', 'V'],
  '4G': ['F', 'OH'],
  '3G+4G': all,
};
const fillet: Cover = {
  '1G': ['F', 'H'],
  '2G': ['F', 'H'],
  '3G': ['F', 'H', 'V'],
  '4G': ['F', 'H', 'OH'],
  '3G+4G': all,
  '1F': ['F'],
  '2F': ['F', 'H'],
  '3F': ['F', 'H', 'V'],
  '4F': ['F', 'H', 'OH'],
  '3F+4F': all,
};

function positions(table: Cover, { position, product }: WelderTest): Given {
  const plain = (position ?? '').replace(/ (up|down)/g, '').replaceAll(' ', '');
  const values = product === 'plate' ? table[plain] : undefined;
  return values === undefined ? { cannotSay: 'only plate test positions are on file' } : { values };
}

const eighth = { mm: 3, in: 1 / 8 };
const threeQuarters = { mm: 20, in: 3 / 4 };

/** The metric name of the 3/8 in plate is 10 mm; the plate itself measures 9.5 mm. */
const threeEighthsMm = { from: 9.5, to: 10 };

function plateThickness(test: WelderTest & { thicknessMm: number }): Given {
  const { limitMm } = columnOf(test.tableUnit);
  const { thicknessMm: t } = test;
  const min = limitMm(eighth);
  if (t >= limitMm({ mm: 25, in: 1 }) - 1e-9) return { band: { min, max: null } };
  if (t > threeEighthsMm.to) return { band: { min, max: 2 * t } };
  return t >= threeEighthsMm.from
    ? { band: { min, max: limitMm(threeQuarters) } }
    : { cannotSay: 'plate tests start at 3/8 in (10 mm)' };
}

const fourInches = { mm: 100, in: 4 };
const isSmallPipe = ({ diameterMm, tableUnit }: WelderTest & { diameterMm: number }) =>
  diameterMm <= columnOf(tableUnit).limitMm(fourInches) + 1e-9;

/** A pipe outside the table's own limits is none of its test pieces. */
function tableBand(band: Band, tested: number): Given {
  return isInBand(tested, band) ? { band } : { cannotSay: 'the test pipe is not in the table' };
}

/** Table 10.13, wall by outside diameter and wall of the test pipe. */
function wallThickness(test: WelderTest & { thicknessMm: number; diameterMm: number }): Given {
  const { limitMm } = columnOf(test.tableUnit);
  const { thicknessMm: wall } = test;
  const isThin = wall <= limitMm({ mm: 10, in: 3 / 8 }) + 1e-9;
  const band =
    isSmallPipe(test) || isThin
      ? { min: limitMm(eighth), max: limitMm(threeQuarters) }
      : { min: limitMm({ mm: 5, in: 3 / 16 }), max: null };
  return tableBand(band, wall);
}

const thickness: readonly RangeRule<WelderTest>[] = [
  row({
    ...seen,
    variable: 'thickness',
    unit: 'mm',
    clause: 'Table 10.13',
    applies: (test) => isGroove(test) && test.product === 'pipe',
    needs: ['thicknessMm', 'diameterMm'],
    give: wallThickness,
  }),
  row({
    ...seen,
    variable: 'thickness',
    unit: 'mm',
    clause: 'Table 6.11',
    applies: isGroove,
    needs: ['thicknessMm', 'product'],
    give: plateThickness,
  }),
  row({
    ...seen,
    variable: 'diameter',
    unit: 'mm',
    clause: 'Table 6.10',
    applies: (test) => isGroove(test) && test.product === 'plate',
    needs: ['backing'],
    tested: () => [],
    // Only with backing or back gouging; without, pipe needs a test of its own.
    give: ({ tableUnit }) => {
      const overPlate = columnOf(tableUnit).limitMm({ mm: 600, in: 24 });
      return { band: { min: overPlate, max: null } };
    },
  }),
  row({
    ...seen,
    variable: 'diameter',
    unit: 'mm',
    clause: 'Table 10.13',
    applies: isGroove,
    needs: ['diameterMm', 'product'],
    give: (test) => {
      const { limitMm } = columnOf(test.tableUnit);
      const least = limitMm({ mm: 20, in: 3 / 4 });
      return isSmallPipe(test)
        ? tableBand({ min: least, max: limitMm(fourInches) }, test.diameterMm)
        : { cannotSay: 'the table on file gives wall only for pipe over 4 in' };
    },
  }),
];

const others: readonly RangeRule<WelderTest>[] = [
  row({
    ...seen,
    variable: 'process',
    clause: 'Table 6.12',
    confidence: 'medium',
    source: 'awsMemory',
    needs: ['process'],
    give: ({ process }) => {
      const letters = processLetters(process);
      return { values: letters === null || letters === process ? [process] : [process, letters] };
    },
  }),
  row({
    ...seen,
    variable: 'jointType',
    clause: 'Table 6.10',
    needs: ['jointType'],
    give: (test) => ({ values: isGroove(test) ? ['butt', 'fillet'] : [test.jointType] }),
  }),
  row({
    ...seen,
    variable: 'position',
    clause: 'Table 6.10',
    applies: isGroove,
    needs: ['position', 'product'],
    tested: () => [],
    give: (test) => positions(groove, test),
  }),
  row({
    ...seen,
    variable: 'filletPosition',
    clause: 'Table 6.10',
    needs: ['position', 'product'],
    tested: () => [],
    give: (test) => positions(fillet, test),
  }),
];

/** Table 6.10 of 2020 and its twin of 2015 hold the same rows; the clauses are given as in 2020. */
export const awsWelders: readonly CodeRules<WelderTest>[] = (['2015', '2020'] as const).map(
  (edition) => ({
    code: 'AWS D1.1',
    edition,
    outOfScope: () => null,
    rows: [...thickness, ...others],
  }),
);
