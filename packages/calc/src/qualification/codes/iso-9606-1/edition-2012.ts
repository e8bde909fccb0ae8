import type { WelderTest } from '../records.js';
import { rowsFor, type CodeRules, type Given, type RangeRule } from '../rule.js';
import { isAluminium } from '../iso-15614-1/materials.js';
import * as tables from './tables.js';

const row = rowsFor<WelderTest>();
const isButt = ({ jointType }: WelderTest) => jointType === 'butt';
const isFillet = ({ jointType }: WelderTest) => jointType === 'fillet';
const memory = { confidence: 'medium', source: 'iso9606Memory' } as const;
const examples = { confidence: 'high', source: 'iso9606Examples' } as const;
const guide = { confidence: 'high', source: 'iso9606Guide' } as const;

function listed(
  table: Readonly<Record<string, readonly string[]>>,
  tested: string,
  unsure?: readonly string[],
): Given {
  const values = table[tested];
  return values === undefined
    ? { cannotSay: `the table has no row for ${tested}` }
    : { values, unsure };
}

const whatAndHow: readonly RangeRule<WelderTest>[] = [
  row({
    ...examples,
    variable: 'process',
    clause: '5.2',
    needs: ['process'],
    give: ({ process }) => ({ values: tables.processes[process] ?? [process] }),
  }),
  row({
    ...examples,
    variable: 'mechanisation',
    clause: '1',
    needs: [],
    give: () => ({ values: ['manual', 'partlyMechanised'] }),
  }),
  row({
    ...examples,
    variable: 'transfer',
    clause: '5.2',
    applies: ({ process }) => ['131', '133', '135', '138'].includes(process ?? ''),
    needs: ['transfer'],
    give: ({ transfer }) => listed(tables.transfers, transfer),
  }),
  row({
    ...examples,
    variable: 'product',
    clause: '5.3',
    needs: ['product'],
    give: ({ product, diameterMm }) => {
      const coversPlate = product === 'plate' || (diameterMm !== null && diameterMm > 25);
      if (coversPlate) return { values: ['plate', 'pipe'] };
      return diameterMm === null ? { values: ['pipe'], unsure: ['plate'] } : { values: ['pipe'] };
    },
  }),
  row({
    confidence: 'high',
    source: 'iso9606Weld',
    variable: 'jointType',
    clause: '5.4',
    needs: ['jointType'],
    give: ({ jointType, supplementaryFillet }) => {
      if (jointType !== 'butt') return { values: [jointType] };
      if (supplementaryFillet === null) return { values: ['butt'], unsure: ['fillet'] };
      return { values: supplementaryFillet ? ['butt', 'fillet'] : ['butt'] };
    },
  }),
  row({
    ...memory,
    variable: 'weldDetail',
    clause: '5.9',
    needs: ['weldDetail'],
    give: ({ weldDetail }) => listed(tables.weldDetails, weldDetail),
  }),
];

const fillers: readonly RangeRule<WelderTest>[] = [
  row({
    ...memory,
    variable: 'fillerGroup',
    clause: '5.5, Table 3',
    needs: ['fillerGroup'],
    give: ({ fillerGroup }) => listed(tables.fillerGroups, fillerGroup),
  }),
  row({
    ...memory,
    variable: 'fillerType',
    clause: '5.6',
    applies: ({ process }) => process === '111',
    needs: ['fillerType'],
    give: ({ fillerType }) => listed(tables.coverings, fillerType),
  }),
  row({
    ...examples,
    variable: 'fillerType',
    clause: '5.6',
    // Of flux-cored wire the table depends on the run, root or fill, which a certificate tells in words only.
    applies: ({ process }) => process === '136' || process === '114',
    needs: ['fillerType'],
    give: ({ fillerType }) => ({ values: [fillerType], unsure: ['R', 'P', 'V', 'W', 'Y', 'Z'] }),
  }),
  row({
    ...examples,
    variable: 'fillerType',
    clause: '5.6',
    needs: ['fillerType', 'process'],
    give: ({ fillerType }) => listed(tables.wires, fillerType),
  }),
];

const upwards = (min: number): Given => ({ band: { min, max: null } });

const dimensions: readonly RangeRule<WelderTest>[] = [
  row({
    ...examples,
    variable: 'depositedThickness',
    unit: 'mm',
    clause: '5.7, Table 6',
    applies: (test) => isButt(test) && (test.depositedMm ?? 0) >= 12,
    needs: ['depositedMm', 'layers'],
    give: ({ layers }) =>
      layers >= 3
        ? upwards(3)
        : { cannotSay: 'from 12 mm on, the test piece is to be welded in three layers at least' },
  }),
  row({
    ...memory,
    variable: 'depositedThickness',
    unit: 'mm',
    clause: '5.7, Table 6',
    applies: isButt,
    needs: ['depositedMm'],
    give: ({ depositedMm: s }) => ({
      band: s < 3 ? { min: s, max: Math.max(3, 2 * s) } : { min: 3, max: 2 * s },
    }),
  }),
  row({
    ...examples,
    variable: 'thickness',
    unit: 'mm',
    clause: '5.7, Table 8',
    applies: isFillet,
    needs: ['thicknessMm'],
    give: ({ thicknessMm: t }) =>
      t >= 3 ? upwards(3) : { band: { min: t, max: Math.max(3, 2 * t) } },
  }),
  ...(
    [
      ['diameter', 500],
      ['diameterRotating', 75],
    ] as const
  ).flatMap(([variable, plateMinMm]) => [
    row({
      ...examples,
      variable,
      unit: 'mm',
      clause: '5.3',
      applies: ({ product }) => product === 'plate',
      needs: [],
      give: () => upwards(plateMinMm),
    }),
    row({
      ...guide,
      variable,
      unit: 'mm',
      clause: '5.7, Table 7',
      needs: ['product', 'diameterMm'],
      tested: ({ diameterMm }) => [diameterMm],
      give: ({ diameterMm: d }) =>
        d <= 25 ? { band: { min: d, max: 2 * d } } : upwards(Math.max(0.5 * d, 25)),
    }),
  ]),
];

const positions: readonly RangeRule<WelderTest>[] = [
  row({
    ...guide,
    variable: 'position',
    clause: '5.8, Table 9',
    applies: isButt,
    needs: ['position'],
    give: ({ position }) => listed(tables.buttPositions, position),
  }),
  row({
    ...guide,
    variable: 'position',
    clause: '5.8, Table 10',
    applies: isFillet,
    needs: ['position'],
    give: ({ position }) =>
      listed(tables.filletPositions, position, tables.filletPositionsUnsure[position]),
  }),
  row({
    ...guide,
    variable: 'filletPosition',
    clause: '5.4',
    applies: (test) => isButt(test) && test.supplementaryFillet === true,
    needs: [],
    give: () => ({ values: ['PA', 'PB'] }),
  }),
];

/** ISO 9606-1:2012, welders of steel by hand or partly mechanised; EN ISO 9606-1:2017 is the same text. */
export const iso9606y2012: CodeRules<WelderTest> = {
  code: 'ISO 9606-1',
  edition: '2012',
  outOfScope: ({ materialGroup }) =>
    materialGroup !== null && isAluminium(materialGroup)
      ? 'aluminium is outside ISO 9606-1; ISO 9606-2 would apply, for which there are no rules'
      : null,
  rows: [...whatAndHow, ...fillers, ...dimensions, ...positions],
};
