import { bounds, firstRefusal, steelDensityKgM3 } from '../quantities.js';
import { calculated, refused, type Calculation } from '../result.js';

const mm3PerM3 = 1e9;

interface MassInputs {
  areaMm2: number;
  lengthMm: number;
  densityKgM3?: number | undefined;
}

/** Mass in kg of weld metal of a cross-section (mm2) over a length (mm). Steel, 7850 kg/m3, unless given. */
export function depositedMass(inputs: MassInputs): Calculation<Required<MassInputs>> {
  const { areaMm2, lengthMm, densityKgM3 = steelDensityKgM3 } = inputs;
  const refusal = firstRefusal([
    ['areaMm2', areaMm2, bounds.areaMm2],
    ['lengthMm', lengthMm, bounds.lengthMm],
    ['densityKgM3', densityKgM3, bounds.densityKgM3],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: (areaMm2 * lengthMm * densityKgM3) / mm3PerM3,
    unit: 'kg',
    inputs: { areaMm2, lengthMm, densityKgM3 },
    sources: ['geometry', 'weldVolume'],
  });
}

interface CapInputs {
  widthMm: number;
  heightMm: number;
}

/** Area in mm2 of a convex cap: 2/3 width x height, within 1 % of the circular segment while the cap is flat. */
export function capArea(inputs: CapInputs): Calculation<CapInputs> {
  const refusal = firstRefusal([
    ['widthMm', inputs.widthMm, bounds.sectionMm],
    ['heightMm', inputs.heightMm, bounds.sectionMm],
  ]);
  if (refusal) return refused(refusal);
  const value = (2 / 3) * inputs.widthMm * inputs.heightMm;
  return calculated({ value, unit: 'mm2', inputs, sources: ['capShape'] });
}
