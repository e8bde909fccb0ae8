import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation, type CalculationInParts } from '../result.js';
import { efficiencyWarnings, wireAreaMm2 } from './wire.js';

const mmPerMetre = 1000;

interface Feed {
  wireDiameterMm: number;
  wireSpeedMMin: number;
  /** Share of the wire that stays in the weld. */
  efficiency: number;
}
type Settings = Feed & { travelMmMin: number };

/** Metal laid in mm3 per minute. */
function laidMm3Min({ wireDiameterMm, wireSpeedMMin, efficiency }: Feed): number {
  return wireAreaMm2(wireDiameterMm) * wireSpeedMMin * mmPerMetre * efficiency;
}

function feedRows(feed: Feed) {
  return [
    ['wireDiameterMm', feed.wireDiameterMm, bounds.wireDiameterMm],
    ['wireSpeedMMin', feed.wireSpeedMMin, bounds.wireSpeedMMin],
    ['efficiency', feed.efficiency, bounds.share],
  ] as const;
}

/**
 * Throat in mm of the flat, equal-leg, single-run fillet that the dialled settings lay: the root of the area
 * fed per length. `parts.areaMm2` is that area. Source: mass balance; penetration and gap are not in it.
 */
export function throatFromSettings(
  inputs: Settings,
): CalculationInParts<Settings, { areaMm2: number; legMm: number }> {
  const refusal = firstRefusal([
    ...feedRows(inputs),
    ['travelMmMin', inputs.travelMmMin, bounds.travelMmMin],
  ]);
  if (refusal) return refused(refusal);
  const areaMm2 = laidMm3Min(inputs) / inputs.travelMmMin;
  const throatMm = Math.sqrt(areaMm2);
  return {
    ...calculated({
      value: throatMm,
      unit: 'mm',
      inputs,
      sources: ['massBalance', 'geometry'],
      warnings: efficiencyWarnings(inputs.efficiency),
    }),
    parts: { areaMm2, legMm: throatMm * Math.SQRT2 },
  };
}

type Aim = Feed & { throatMm: number; extraAreaShare?: number | undefined };

/** Travel speed in mm/min that lays a throat a in one run; `extraAreaShare` 0.1 lays 10 % more area than a^2. */
export function travelForThroat(inputs: Aim): Calculation<Required<Aim>> {
  const { throatMm, extraAreaShare = 0 } = inputs;
  const refusal = firstRefusal([
    ...feedRows(inputs),
    ['throatMm', throatMm, bounds.sectionMm],
    ['extraAreaShare', extraAreaShare, bounds.extraShare],
  ]);
  if (refusal) return refused(refusal);
  return calculated({
    value: laidMm3Min(inputs) / (throatMm ** 2 * (1 + extraAreaShare)),
    unit: 'mm/min',
    inputs: { ...inputs, extraAreaShare },
    sources: ['massBalance', 'geometry'],
    warnings: efficiencyWarnings(inputs.efficiency),
  });
}
