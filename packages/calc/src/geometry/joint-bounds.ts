import type { Bound } from '../quantities.js';

/** Bounds that only joints need: they keep out what cannot be cut or filled, not what is unusual. */
export const jointBounds = {
  openMm: { min: 0, max: 1_000, unit: 'mm' },
  includedAngleDeg: { min: 1, max: 170, unit: 'deg' },
  bevelAngleDeg: { min: 1, max: 85, unit: 'deg' },
  sideAngleDeg: { min: 0, max: 60, unit: 'deg' },
  rootRadiusMm: { min: 0.5, max: 100, unit: 'mm' },
} as const satisfies Record<string, Bound>;

/** Bound between nothing and a length that the joint itself sets. */
export function upTo(max: number): Bound {
  return { min: 0, max, unit: 'mm' };
}
