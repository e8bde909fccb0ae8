import {
  operatorTest,
  procedureTest,
  suggestOperatorRanges,
  suggestProcedureRanges,
  suggestWelderRanges,
  welderTest,
} from '../codes/index.js';
import { yieldFromName } from '../designations/steel-names.js';
import type { NeedVariable, TestBook, TestConditions, TestToMake } from './facts.js';

type Code = Pick<TestBook, 'code' | 'edition'>;

function procedureRanges({ code, edition }: Code) {
  return (piece: TestToMake, { propertiesDemanded, runs }: TestConditions) => {
    const { process, mechanisation, jointType, position, materials } = piece;
    const yields = (materials ?? []).map(({ material }) => yieldFromName(material));
    const known = yields.filter((each) => each !== null);
    return suggestProcedureRanges(
      procedureTest({
        ...{ code, edition, process, mechanisation, jointType, position, product: 'plate' },
        level: code === 'ISO 15614-1' && edition !== '2004' ? '2' : null,
        thicknessMm: piece.thicknessMm,
        throatMm: piece.throatMm,
        // The row of one run lies within that of several, in every table on file.
        runs: runs === 'multi' ? 'multi' : 'single',
        materialGroups: materials?.map(({ group }) => group) ?? null,
        yieldsMPa: known.length === yields.length && known.length > 0 ? known : null,
        impactRequired: propertiesDemanded,
        impactTested: propertiesDemanded,
        hardnessRequired: propertiesDemanded,
      }),
    );
  };
}

function welderRanges({ code, edition }: Code) {
  return ({ process, jointType, position, materials, thicknessMm }: TestToMake) =>
    suggestWelderRanges(
      welderTest({
        ...{ code, edition, process, jointType, position, thicknessMm, product: 'plate' },
        supplementaryFillet: false,
        // A butt test piece is welded through, from 12 mm on in three layers at least.
        depositedMm: jointType === 'butt' ? thicknessMm : null,
        layers: thicknessMm !== null && thicknessMm >= 12 ? 3 : null,
        materialGroup: materials?.[0].group ?? null,
      }),
    );
}

function operatorRanges({ code, edition }: Code) {
  return ({ process, mechanisation, position, unit }: TestToMake) =>
    suggestOperatorRanges(operatorTest({ code, edition, process, mechanisation, position, unit }));
}

const isoPlate = {
  butt: ['PA', 'PC', 'PE', 'PF', 'PG'],
  fillet: ['PA', 'PB', 'PC', 'PD', 'PE', 'PF', 'PG'],
};
const usPlate = {
  butt: ['1G', '2G', '3G up', '4G'],
  fillet: ['1F', '2F', '3F up', '4F'],
};
const common: readonly NeedVariable[] = ['process', 'mechanisation', 'jointType', 'position'];
const joints = ['butt', 'fillet'];
const measured: readonly NeedVariable[] = [...common, 'materialGroup', 'thickness', 'throat'];

const procedureBook = (code: Code, rest: Pick<TestBook, 'positions' | 'stepsMm'>): TestBook => ({
  ...{ ...code, ...rest, joints, mechanisations: null, for: 'procedures', variables: measured },
  ranges: procedureRanges(code),
});
const welderBook = (
  code: Code,
  rest: Pick<TestBook, 'positions' | 'stepsMm' | 'variables'>,
): TestBook => ({
  ...{ ...code, ...rest, joints, for: 'people', mechanisations: ['manual', 'partlyMechanised'] },
  ranges: welderRanges(code),
});

const iso15614Steps = { butt: [3, 12, 40, 100], fillet: [3, 30] };
const asme = ['2021', '2019', '2017'].map((edition) => ({ code: 'ASME IX', edition }));
const aws = ['2020', '2015'].map((edition) => ({ code: 'AWS D1.1', edition }));
const iso14732 = { code: 'ISO 14732', edition: '2013' };

/** The codes for which test pieces can be drawn up. */
export const testBooks: readonly TestBook[] = [
  ...['2017', '2004'].map((edition) =>
    procedureBook(
      { code: 'ISO 15614-1', edition },
      { positions: isoPlate, stepsMm: iso15614Steps },
    ),
  ),
  ...asme.map((code) =>
    procedureBook(code, { positions: isoPlate, stepsMm: { butt: [1.5, 10, 38, 150], fillet: [] } }),
  ),
  ...aws.map((code) =>
    procedureBook(code, { positions: usPlate, stepsMm: { butt: [3, 25], fillet: [] } }),
  ),
  welderBook(
    { code: 'ISO 9606-1', edition: '2012' },
    {
      ...{ positions: isoPlate, stepsMm: { butt: [3, 12], fillet: [3] } },
      variables: [...common, 'materialGroup', 'thickness'],
    },
  ),
  {
    ...{ ...iso14732, joints, positions: isoPlate, stepsMm: {}, for: 'people' },
    variables: ['process', 'mechanisation', 'unit', 'position'],
    mechanisations: ['fullyMechanised', 'automatic'],
    ranges: operatorRanges(iso14732),
  },
  ...asme.map((code) =>
    welderBook(code, {
      ...{ positions: usPlate, stepsMm: { butt: [13], fillet: [] } },
      variables: [...common, 'materialGroup', 'thickness'],
    }),
  ),
  ...aws.map((code) =>
    welderBook(code, {
      ...{ positions: usPlate, stepsMm: { butt: [10, 25], fillet: [10, 25] } },
      variables: [...common, 'thickness'],
    }),
  ),
];

/** The book of a code and edition for procedures or people, or null when there is none. */
export function testBook(wanted: Pick<TestBook, 'code' | 'edition' | 'for'>): TestBook | null {
  return (
    testBooks.find(
      (book) =>
        book.for === wanted.for && book.code === wanted.code && book.edition === wanted.edition,
    ) ?? null
  );
}
