import type { SourceId } from '../../../sources/index.js';
import type { ProcedureTest } from '../records.js';
import { rowsFor, type Confidence, type RangeRule } from '../rule.js';

const row = rowsFor<ProcedureTest>();
const isPlate = ({ product }: ProcedureTest) => product === 'plate';

/** Outside diameter of pipe, and whether plate and pipe stand for each other. */
export function diameterRows(edition: {
  clause: string;
  source: SourceId;
  smallPipe: Confidence;
}): RangeRule<ProcedureTest>[] {
  const common = { clause: edition.clause, source: edition.source } as const;
  const inMm = { ...common, unit: 'mm' } as const;
  const overMm = (min: number) => () => ({ band: { min, max: null, minOpen: true } as const });
  const smallPipe = ({ diameterMm }: ProcedureTest) => diameterMm !== null && diameterMm <= 25;
  const pipeRows = (variable: 'diameter' | 'diameterRotating') => [
    row({
      ...inMm,
      variable,
      confidence: edition.smallPipe,
      applies: smallPipe,
      needs: ['product', 'diameterMm'],
      tested: ({ diameterMm }) => [diameterMm],
      give: ({ diameterMm: d }) => ({ band: { min: 0.5 * d, max: 2 * d } }),
    }),
    row({
      ...inMm,
      variable,
      confidence: 'medium',
      needs: ['product', 'diameterMm'],
      tested: ({ diameterMm }) => [diameterMm],
      give: ({ diameterMm: d }) => ({ band: { min: Math.max(0.5 * d, 25), max: null } }),
    }),
  ];
  return [
    row({
      ...common,
      variable: 'product',
      confidence: 'medium',
      needs: ['product'],
      give: ({ product }) =>
        product === 'plate'
          ? { values: ['plate', 'pipe'] }
          : { values: ['pipe'], unsure: ['plate'] },
    }),
    row({
      ...inMm,
      variable: 'diameter',
      confidence: 'medium',
      applies: isPlate,
      needs: [],
      give: overMm(500),
    }),
    // Rotated pipe in PA or PC.
    row({
      ...inMm,
      variable: 'diameterRotating',
      confidence: 'medium',
      applies: isPlate,
      needs: [],
      give: overMm(150),
    }),
    ...pipeRows('diameter'),
    ...pipeRows('diameterRotating'),
  ];
}
