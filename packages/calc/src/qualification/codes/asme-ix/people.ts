import { isShortCircuit, processLetters } from '../../designations/processes.js';
import type { WelderTest } from '../records.js';
import { rowsFor, type CodeRules, type Given, type RangeRule } from '../rule.js';
import { columnOf } from '../steps.js';

const row = rowsFor<WelderTest>();
const memory = { confidence: 'medium', source: 'asmeMemory' } as const;
const seen = { confidence: 'high', source: 'asmeQw452' } as const;
const isGroove = ({ jointType }: WelderTest) => jointType === 'butt';

type Cover = Readonly<Record<string, readonly string[]>>;
const all = ['F', 'H', 'V', 'O'];

/** QW-461.9, groove positions by test position. */
const groove: Cover = {
  '1G': ['F'],
  '2G': ['F', 'H'],
  '3G': ['F', 'V'],
  '4G': ['F', 'O'],
  '3G+4G': ['F', 'V', 'O'],
  '2G+3G+4G': all,
  '5G': ['F', 'V', 'O'],
  '6G': all,
  '2G+5G': all,
};
/** QW-461.9, fillet positions by groove or fillet test position. */
const fillet: Cover = {
  '1G': ['F'],
  '2G': ['F', 'H'],
  '3G': ['F', 'H', 'V'],
  '4G': ['F', 'H', 'O'],
  '3G+4G': all,
  '2G+3G+4G': all,
  '5G': all,
  '6G': all,
  '2G+5G': all,
  '1F': ['F'],
  '2F': ['F', 'H'],
  '3F': ['F', 'H', 'V'],
  '4F': ['F', 'H', 'O'],
  '3F+4F': all,
  '5F': all,
};

function positions(table: Cover, position: string): Given {
  const values = table[position.replace(/ (up|down)/g, '').replaceAll(' ', '')];
  return values === undefined
    ? { cannotSay: `QW-461.9 as on file has no row for ${position}` }
    : { values };
}

/** QW-452.1(b): no lower limit; unlimited from 1/2 in (13 mm) in three layers. */
function deposit(test: WelderTest & { depositedMm: number }): Given {
  const { limitMm } = columnOf(test.tableUnit);
  const { depositedMm: t, layers } = test;
  const isHalfInch = t >= limitMm({ mm: 13, in: 1 / 2 }) - 1e-9;
  const short = isHalfInch ? false : isShortCircuit(test);
  if (short === true) return { band: { min: null, max: 1.1 * t } };
  if (isHalfInch && layers !== null && layers >= 3) return { any: true };
  if (isHalfInch && layers === null) {
    return { band: { min: null, max: 2 * t }, unsure: { min: 0, max: null } };
  }
  return short === null
    ? { band: { min: null, max: 1.1 * t }, unsure: { min: null, max: 2 * t } }
    : { band: { min: null, max: 2 * t } };
}

/** QW-452.3, and plate for pipe from QW-461.9. */
function diameter(test: WelderTest): Given {
  const { limitMm } = columnOf(test.tableUnit);
  const large = { mm: 73, in: 2.875 };
  if (test.product === 'plate') {
    // In flat, and in horizontal from 2G, smaller pipe is covered too; the certificate prints it.
    const overPlate = { mm: 610, in: 24 };
    return {
      band: { min: limitMm(overPlate), max: null, minOpen: true },
      unsure: { min: limitMm(large), max: null },
    };
  }
  const d = test.diameterMm;
  if (d === null) return { cannotSay: 'the test record does not give the pipe diameter' };
  const inch = limitMm({ mm: 25, in: 1 });
  if (d < inch - 1e-9) return { band: { min: d, max: null } };
  return { band: { min: d <= limitMm(large) + 1e-9 ? inch : limitMm(large), max: null } };
}

/** Steels and nickel of QW-423: one P-Number stands for the whole set. */
const steelSet =
  /^P?-?(1|2|3|4|5[A-C]?|6|7|8|9[A-C]?|10[A-K]?|11[A-C]?|12|13|14|15[A-F]?|34|4[1-9])$/i;

const rows: readonly RangeRule<WelderTest>[] = [
  row({
    ...seen,
    variable: 'process',
    clause: 'QW-350',
    needs: ['process'],
    give: ({ process }) => {
      const letters = processLetters(process);
      return { values: letters === null || letters === process ? [process] : [process, letters] };
    },
  }),
  row({
    ...seen,
    variable: 'jointType',
    clause: 'QW-452.6',
    source: 'asmeFillet',
    needs: ['jointType'],
    give: (test) => ({ values: isGroove(test) ? ['butt', 'fillet'] : [test.jointType] }),
  }),
  row({
    ...seen,
    variable: 'depositedThickness',
    unit: 'mm',
    clause: 'QW-452.1(b)',
    applies: isGroove,
    needs: ['depositedMm', 'process'],
    tested: ({ depositedMm }) => [depositedMm],
    give: deposit,
  }),
  row({
    ...seen,
    variable: 'diameter',
    unit: 'mm',
    clause: 'QW-452.3',
    source: 'asmeDiameter',
    applies: isGroove,
    needs: ['product'],
    tested: ({ product, diameterMm }) =>
      product === 'plate' || diameterMm === null ? [] : [diameterMm],
    give: diameter,
  }),
  row({
    ...seen,
    variable: 'position',
    clause: 'QW-461.9',
    applies: isGroove,
    needs: ['position'],
    tested: () => [],
    give: ({ position }) => positions(groove, position),
  }),
  row({
    ...seen,
    variable: 'filletPosition',
    clause: 'QW-461.9',
    needs: ['position'],
    tested: () => [],
    give: ({ position }) => positions(fillet, position),
  }),
  row({
    ...seen,
    variable: 'materialGroup',
    clause: 'QW-423',
    source: 'asmeQw424',
    needs: ['materialGroup'],
    tested: () => [],
    give: ({ materialGroup }) =>
      steelSet.test(materialGroup)
        ? { values: ['P1 to P15F', 'P34', 'P41 to P49'] }
        : { values: [materialGroup] },
  }),
  row({
    ...memory,
    variable: 'fillerGroup',
    clause: 'QW-433',
    needs: ['fillerGroup'],
    give: ({ fillerGroup, backing }) => {
      const number = Number(fillerGroup.match(/^F-?([1-4])$/i)?.[1]);
      if (Number.isNaN(number)) return { values: [fillerGroup] };
      const upTo = ['F1', 'F2', 'F3', 'F4'].slice(0, number);
      // The lower numbers are held on backing only, whatever the test was welded on.
      return backing === true
        ? { values: upTo }
        : { values: upTo.slice(-1), unsure: upTo.slice(0, -1) };
    },
  }),
  row({
    ...memory,
    variable: 'transfer',
    clause: 'QW-409.2',
    applies: ({ process }) => processLetters(process) === 'GMAW',
    needs: ['transfer'],
    give: ({ transfer }) => {
      const hot = ['G', 'S', 'P'];
      return hot.includes(transfer) ? { values: hot } : { values: [transfer], unsure: hot };
    },
  }),
  row({
    ...memory,
    variable: 'backing',
    clause: 'QW-402.4',
    applies: isGroove,
    needs: ['backing'],
    tested: ({ backing }) => [backing ? 'with' : 'without'],
    give: ({ backing }) => ({ values: backing ? ['with'] : ['without', 'with'] }),
  }),
];

const editions = ['2017', '2019', '2021'] as const;

/** ASME BPVC Section IX, welders: QW-452, QW-461.9, QW-423, QW-433 and QW-350. */
export const asmeWelders: readonly CodeRules<WelderTest>[] = editions.map((edition) => ({
  code: 'ASME IX',
  edition,
  outOfScope: () => null,
  rows,
}));
