import type { SourceId } from '../../../sources/index.js';
import type { ProcedureTest } from '../records.js';
import { rowsFor, type RangeRule } from '../rule.js';
import { isFillet } from './thickness.js';

const row = rowsFor<ProcedureTest>();

/** The positions of ISO 6947 that any one position stands for when neither impact nor hardness is demanded. */
const shared = ['PA', 'PB', 'PC', 'PD', 'PE', 'PF', 'PH', 'H-L045'];
/** Downward positions, which need a test of their own. */
const downward = ['PG', 'PJ', 'J-L045'];

function positionRow({ clause }: { clause: string }): RangeRule<ProcedureTest> {
  return row({
    variable: 'position',
    clause,
    confidence: 'medium',
    source: 'iso15614Heat',
    needs: ['position'],
    give: ({ position: own, impactRequired, hardnessRequired }) => {
      if (downward.includes(own)) return { values: [own], unsure: shared };
      const others = shared.filter((each) => each !== own);
      if (!shared.includes(own)) return { values: [own], unsure: others };
      // With impact or hardness demanded, high and low heat input each bind a position: one test holds its own.
      return impactRequired === false && hardnessRequired === false
        ? { values: shared }
        : { values: [own], unsure: others };
    },
  });
}

function heatInputRow({ clause }: { clause: string }): RangeRule<ProcedureTest> {
  return row({
    variable: 'heatInput',
    unit: 'kJ/mm',
    clause,
    confidence: 'high',
    source: 'iso15614Heat',
    needs: ['heatInputKjMm', 'impactRequired', 'hardnessRequired'],
    give: ({ heatInputKjMm: tested, impactRequired, hardnessRequired }) =>
      impactRequired || hardnessRequired
        ? {
            band: {
              min: hardnessRequired ? 0.75 * tested : null,
              max: impactRequired ? 1.25 * tested : null,
            },
          }
        : { any: true },
  });
}

const withTransfer: ReadonlySet<string> = new Set(['131', '133', '135', '138']);
const isGasMetalArc = ({ process }: ProcedureTest) => /^13\d?$/.test(process ?? '');

function gasRows({
  clause,
  source,
}: {
  clause: string;
  source: SourceId;
}): RangeRule<ProcedureTest>[] {
  return [
    row({
      variable: 'gas',
      clause,
      confidence: 'medium',
      source,
      applies: ({ process }) => /^1[34]\d?$/.test(process ?? ''),
      needs: ['gas'],
      give: ({ gas }) => ({ values: [gas] }),
    }),
    row({
      variable: 'co2',
      unit: '%',
      clause,
      confidence: 'low',
      source,
      applies: isGasMetalArc,
      needs: ['co2Pct'],
      give: ({ co2Pct }) => ({ band: { min: null, max: 1.1 * co2Pct } }),
    }),
    row({
      variable: 'transfer',
      clause,
      confidence: 'medium',
      source,
      applies: ({ process }) => withTransfer.has(process ?? ''),
      needs: ['transfer'],
      give: ({ transfer }) => {
        if (transfer === 'D') return { values: ['D'] };
        const hot = ['G', 'S', 'P'];
        return hot.includes(transfer) ? { values: hot } : { values: [transfer], unsure: hot };
      },
    }),
  ];
}

function jointRows({ source }: { source: SourceId }): RangeRule<ProcedureTest>[] {
  const common = { clause: '8.4.3', confidence: 'medium', source } as const;
  const byJoint: Readonly<Record<string, readonly string[]>> = {
    butt: ['butt', 'partialButt', 'fillet'],
    tButt: ['tButt', 'fillet'],
    fillet: ['fillet'],
  };
  return [
    row({
      ...common,
      variable: 'jointType',
      needs: ['jointType'],
      give: ({ jointType }) => {
        const values = byJoint[jointType];
        return values === undefined ? { values: [jointType] } : { values };
      },
    }),
    row({
      ...common,
      variable: 'runs',
      needs: ['runs'],
      give: ({ runs }) => ({ values: [runs] }),
    }),
    row({
      ...common,
      variable: 'backing',
      applies: (test) => !isFillet(test) && test.sides === 'both',
      needs: ['sides', 'gouged'],
      tested: ({ gouged }) => [gouged ? 'bothSidesGouged' : 'bothSides'],
      give: ({ gouged }) => ({
        values: gouged ? ['bothSidesGouged'] : ['bothSides', 'bothSidesGouged'],
      }),
    }),
    row({
      ...common,
      variable: 'backing',
      applies: (test) => !isFillet(test),
      needs: ['sides', 'backing'],
      tested: ({ backing }) => [backing ? 'oneSideBacked' : 'oneSide'],
      give: ({ backing }) => {
        const also = ['oneSideBacked', 'bothSides', 'bothSidesGouged'];
        return { values: backing ? also : ['oneSide', ...also] };
      },
    }),
  ];
}

function temperatureRows(clauses: { preheat: string; interpass: string; source: SourceId }) {
  const common = { unit: 'degC', confidence: 'medium', source: clauses.source } as const;
  return [
    row({
      ...common,
      variable: 'preheat',
      clause: clauses.preheat,
      needs: ['preheatC'],
      give: ({ preheatC }) => ({ band: { min: preheatC, max: null } }),
    }),
    row({
      ...common,
      variable: 'interpass',
      clause: clauses.interpass,
      needs: ['interpassC'],
      give: ({ interpassC }) => ({ band: { min: null, max: interpassC } }),
    }),
  ];
}

function ownValueRows({ source }: { source: SourceId }): RangeRule<ProcedureTest>[] {
  const common = { confidence: 'medium', source } as const;
  return [
    row({
      ...common,
      variable: 'process',
      clause: '8.4.1',
      needs: ['process'],
      give: ({ process }) => ({ values: [process] }),
    }),
    row({
      ...common,
      variable: 'mechanisation',
      clause: '8.4.1',
      needs: ['mechanisation'],
      give: ({ mechanisation }) => ({ values: [mechanisation] }),
    }),
    row({
      ...common,
      variable: 'filler',
      clause: '8.4.4',
      needs: ['filler'],
      give: ({ filler }) => ({ values: [filler] }),
    }),
    row({
      ...common,
      variable: 'wireDiameter',
      clause: '8.4.5',
      needs: ['wireDiameterMm'],
      give: () => ({ any: true }),
    }),
    row({
      ...common,
      variable: 'currentType',
      clause: '8.4.6',
      needs: ['currentType'],
      give: ({ currentType }) => ({ values: [currentType] }),
    }),
  ];
}

function branchRow({ clause, source }: { clause: string; source: SourceId }) {
  return row({
    variable: 'branchAngle',
    unit: 'deg',
    clause,
    confidence: 'medium',
    source,
    applies: ({ branchAngleDeg }) => branchAngleDeg !== null,
    needs: ['branchAngleDeg'],
    give: ({ branchAngleDeg }) => ({ band: { min: branchAngleDeg, max: 90 } }),
  });
}

/** The rows both editions share; heat input, preheat and interpass changed their numbers. */
export function commonRows(edition: {
  source: SourceId;
  clauses: { heatInput: string; preheat: string; interpass: string; gas: string };
}): RangeRule<ProcedureTest>[] {
  const { source, clauses } = edition;
  return [
    ...ownValueRows({ source }),
    ...jointRows({ source }),
    branchRow({ clause: '8.3.4', source }),
    positionRow({ clause: '8.4.2' }),
    ...gasRows({ clause: clauses.gas, source }),
    heatInputRow({ clause: clauses.heatInput }),
    ...temperatureRows({ ...clauses, source }),
  ];
}
