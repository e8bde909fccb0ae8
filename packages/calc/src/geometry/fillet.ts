import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation } from '../result.js';

export type FilletSize = { throatMm: number } | { legMm: number; secondLegMm?: number | undefined };

/** Why there is no fillet of this size; null where there is. */
export function filletSizeRefusal(size: FilletSize) {
  if ('throatMm' in size) {
    return firstRefusal([['throatMm', size.throatMm, bounds.sectionMm]]);
  }
  const { legMm, secondLegMm = legMm } = size;
  return firstRefusal([
    ['legMm', legMm, bounds.sectionMm],
    ['secondLegMm', secondLegMm, bounds.sectionMm],
  ]);
}

/**
 * Area in mm2 of a flat fillet from its throat a (equal legs, a^2) or its legs z (z1 z2 / 2).
 * Source: plane geometry; Job Knowledge 95.
 */
export function filletArea<S extends FilletSize>(size: S): Calculation<S> {
  const refusal = filletSizeRefusal(size);
  if (refusal) return refused(refusal);
  return calculated({
    value: areaMm2(size),
    unit: 'mm2',
    inputs: size,
    sources: ['geometry', 'weldVolume'],
  });
}

function areaMm2(size: FilletSize): number {
  if ('throatMm' in size) return size.throatMm ** 2;
  return (size.legMm * (size.secondLegMm ?? size.legMm)) / 2;
}

/** Both legs in mm of a flat fillet: equal where the throat or one leg is given. */
export function legsOf(size: FilletSize): [legMm: number, secondLegMm: number] {
  if ('legMm' in size) return [size.legMm, size.secondLegMm ?? size.legMm];
  const legMm = size.throatMm * Math.SQRT2;
  return [legMm, legMm];
}

/** Throat a in mm of a flat fillet with legs z: z1 z2 / sqrt(z1^2 + z2^2), for equal legs z / sqrt 2. */
export function filletThroat<S extends Extract<FilletSize, { legMm: number }>>(
  size: S,
): Calculation<S> {
  const refusal = filletSizeRefusal(size);
  if (refusal) return refused(refusal);
  const { legMm, secondLegMm = legMm } = size;
  const value = (legMm * secondLegMm) / Math.hypot(legMm, secondLegMm);
  return calculated({ value, unit: 'mm', inputs: size, sources: ['geometry'] });
}

/** Leg z in mm of a flat fillet with equal legs: a sqrt 2. */
export function filletLeg(size: { throatMm: number }): Calculation<{ throatMm: number }> {
  const refusal = filletSizeRefusal(size);
  if (refusal) return refused(refusal);
  const value = size.throatMm * Math.SQRT2;
  return calculated({ value, unit: 'mm', inputs: size, sources: ['geometry'] });
}
