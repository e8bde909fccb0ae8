import type { OperatorTest } from '../records.js';
import { rowsFor, type CodeRules, type RangeRule } from '../rule.js';

const row = rowsFor<OperatorTest>();
const page = { confidence: 'high', source: 'iso14732Page' } as const;
const memory = { confidence: 'medium', source: 'iso14732Memory' } as const;
const isMechanised = ({ mechanisation }: OperatorTest) => mechanisation !== 'automatic';
const yesNo = (value: boolean) => (value ? 'with' : 'without');

/** What is lost counts, what is added does not: control that was there in the test is to stay. */
const mayBeAdded = (value: boolean) => ({ values: value ? ['with'] : ['without', 'with'] });

const everyUnit: readonly RangeRule<OperatorTest>[] = [
  row({
    ...page,
    variable: 'process',
    clause: '4.2',
    needs: ['process'],
    give: ({ process }) => ({ values: [process] }),
  }),
  row({
    ...page,
    variable: 'mechanisation',
    clause: '1',
    needs: ['mechanisation'],
    give: ({ mechanisation }) =>
      mechanisation === 'fullyMechanised' || mechanisation === 'automatic'
        ? { values: [mechanisation] }
        : { cannotSay: 'the code is for fully mechanised and automatic welding' },
  }),
  row({
    ...page,
    variable: 'unit',
    clause: '4.2',
    needs: ['unit'],
    give: ({ unit }) => ({ values: [unit] }),
  }),
  row({
    ...page,
    variable: 'jointSensor',
    clause: '4.2',
    needs: ['jointSensor'],
    tested: ({ jointSensor }) => [yesNo(jointSensor)],
    give: ({ jointSensor }) => ({ values: [yesNo(jointSensor)] }),
  }),
  row({
    ...page,
    variable: 'arcSensor',
    clause: '4.2',
    needs: ['arcSensor'],
    tested: ({ arcSensor }) => [yesNo(arcSensor)],
    give: ({ arcSensor }) => ({ values: [yesNo(arcSensor)] }),
  }),
  row({
    ...memory,
    variable: 'runs',
    clause: '4.2',
    needs: ['runs'],
    give: ({ runs }) => ({ values: runs === 'multi' ? ['single', 'multi'] : ['single'] }),
  }),
  ...(['materialGroup', 'filler', 'thickness', 'diameter'] as const).map((variable) =>
    row({
      ...memory,
      variable,
      clause: '4.2',
      applies: ({ mechanisation }) => mechanisation === 'automatic',
      needs: [],
      give: () => ({ any: true }),
    }),
  ),
];

const mechanisedToo: readonly RangeRule<OperatorTest>[] = [
  row({
    ...memory,
    variable: 'visualControl',
    clause: '4.2',
    applies: isMechanised,
    needs: ['visualControl'],
    give: ({ visualControl }) => ({ values: [visualControl] }),
  }),
  row({
    ...memory,
    variable: 'arcLengthControl',
    clause: '4.2',
    applies: isMechanised,
    needs: ['arcLengthControl'],
    tested: ({ arcLengthControl }) => [yesNo(arcLengthControl)],
    give: ({ arcLengthControl }) => mayBeAdded(arcLengthControl),
  }),
  row({
    ...memory,
    variable: 'jointTracking',
    clause: '4.2',
    applies: isMechanised,
    needs: ['jointTracking'],
    tested: ({ jointTracking }) => [yesNo(jointTracking)],
    give: ({ jointTracking }) => mayBeAdded(jointTracking),
  }),
  row({
    ...memory,
    variable: 'position',
    clause: '4.2',
    applies: isMechanised,
    needs: ['position'],
    give: ({ position }) => ({ values: [position] }),
  }),
  row({
    ...memory,
    variable: 'backing',
    clause: '4.2',
    applies: isMechanised,
    needs: ['backing'],
    tested: ({ backing }) => [yesNo(backing)],
    give: ({ backing }) => mayBeAdded(backing),
  }),
];

/** ISO 14732:2013, operators and setters of mechanised and automatic welding. */
export const iso14732y2013: CodeRules<OperatorTest> = {
  code: 'ISO 14732',
  edition: '2013',
  outOfScope: () => null,
  rows: [...everyUnit, ...mechanisedToo],
};
