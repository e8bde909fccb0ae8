import {
  isShortCircuit,
  processLetters,
  transferContradicts,
} from '../../designations/processes.js';
import type { ProcedureTest } from '../records.js';
import { rowsFor, type CodeRules, type RangeRule } from '../rule.js';
import { pNumbers } from './p-numbers.js';
import { asmeThickness } from './thickness.js';

const row = rowsFor<ProcedureTest>();
const memory = { confidence: 'medium', source: 'asmeMemory' } as const;
const any = () => ({ any: true }) as const;
const preheatDropC = 55;
const interpassRiseC = 55;

const own: readonly RangeRule<ProcedureTest>[] = [
  row({
    ...memory,
    variable: 'process',
    clause: 'QW-250',
    needs: ['process'],
    give: ({ process }) => {
      const letters = processLetters(process);
      return letters === null || letters === process
        ? { values: [process] }
        : { values: [process, letters] };
    },
  }),
  row({
    ...memory,
    variable: 'filler',
    clause: 'QW-404.4, QW-404.5, QW-404.23',
    needs: ['filler'],
    give: ({ filler }) => ({ values: [filler] }),
  }),
  row({
    ...memory,
    variable: 'fillerGroup',
    clause: 'QW-404.4',
    needs: ['fillerGroup'],
    give: ({ fillerGroup }) => ({ values: [fillerGroup] }),
  }),
  row({
    ...memory,
    variable: 'gas',
    clause: 'QW-408.2',
    needs: ['gas'],
    give: ({ gas }) => ({ values: [gas] }),
  }),
  row({
    ...memory,
    variable: 'transfer',
    clause: 'QW-409.2',
    applies: ({ process }) => processLetters(process) === 'GMAW',
    needs: ['process', 'transfer'],
    tested: ({ transfer }) => [transfer],
    give: (test) => {
      const { transfer } = test;
      if (isShortCircuit(test) && transfer !== 'D') return transferContradicts;
      const hot = ['G', 'S', 'P'];
      return hot.includes(transfer) ? { values: hot } : { values: [transfer], unsure: hot };
    },
  }),
];

const joint: readonly RangeRule<ProcedureTest>[] = [
  row({
    variable: 'jointType',
    clause: 'QW-202.2(c)',
    confidence: 'high',
    source: 'asmeFillet',
    needs: ['jointType'],
    give: ({ jointType }) => ({
      values:
        jointType === 'butt' || jointType === 'tButt'
          ? ['butt', 'tButt', 'partialButt', 'fillet']
          : [jointType],
    }),
  }),
  row({
    variable: 'product',
    clause: 'QW-211',
    confidence: 'high',
    source: 'asmeDiameter',
    needs: ['product'],
    give: () => ({ values: ['plate', 'pipe'] }),
  }),
  ...(['diameter', 'diameterRotating'] as const).map((variable) =>
    row({
      variable,
      clause: 'QW-211',
      confidence: 'high',
      source: 'asmeDiameter',
      needs: [],
      give: any,
    }),
  ),
  row({
    ...memory,
    variable: 'position',
    clause: 'QW-405.1, QW-405.2',
    needs: ['impactRequired'],
    tested: ({ position }) => (position === null ? [] : [position]),
    give: ({ impactRequired, position }) => {
      const isUp = position === 'PF' || position === '3G up';
      return impactRequired && !isUp
        ? { cannotSay: 'with toughness demanded, vertical up needs a test of its own' }
        : { any: true };
    },
  }),
];

const arc: readonly RangeRule<ProcedureTest>[] = [
  row({
    variable: 'heatInput',
    unit: 'kJ/mm',
    clause: 'QW-409.1',
    confidence: 'high',
    source: 'asmeHeat',
    needs: ['heatInputKjMm', 'impactRequired'],
    give: ({ heatInputKjMm, impactRequired }) =>
      impactRequired ? { band: { min: null, max: heatInputKjMm } } : { any: true },
  }),
  ...(['current', 'voltage', 'wireSpeed'] as const).map((variable) =>
    row({ ...memory, variable, clause: 'QW-409.8', needs: [], give: any }),
  ),
  row({ ...memory, variable: 'wireDiameter', clause: 'QW-404.6', needs: [], give: any }),
  row({ ...memory, variable: 'gasFlow', clause: 'QW-408.3', needs: [], give: any }),
  row({
    ...memory,
    variable: 'preheat',
    unit: 'degC',
    clause: 'QW-406.1',
    needs: ['preheatC'],
    give: ({ preheatC }) => ({ band: { min: preheatC - preheatDropC, max: null } }),
  }),
  row({
    ...memory,
    variable: 'interpass',
    unit: 'degC',
    clause: 'QW-406.3',
    needs: ['interpassC', 'impactRequired'],
    give: ({ interpassC, impactRequired }) =>
      impactRequired ? { band: { min: null, max: interpassC + interpassRiseC } } : { any: true },
  }),
];

/** ASME IX numbers its clauses anew after 2021; the tables are the same in these editions. */
const editions = ['2017', '2019', '2021'] as const;

/** ASME BPVC Section IX, procedures: QW-451, QW-255 and QW-424. */
export const asmeProcedures: readonly CodeRules<ProcedureTest>[] = editions.map((edition) => ({
  code: 'ASME IX',
  edition,
  outOfScope: () => null,
  rows: [pNumbers, ...asmeThickness, ...own, ...joint, ...arc],
}));
