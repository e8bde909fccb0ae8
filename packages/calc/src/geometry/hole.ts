import { bounds, firstRefusal } from '../quantities.js';
import { calculated, refused, type Calculation } from '../result.js';

export interface Hole {
  /** Across the slot; the diameter of a round hole. */
  widthMm: number;
  /** Over its round ends; the diameter again where the hole is round. */
  lengthMm: number;
}

/**
 * Area in mm2 of the hole that a plug or slot weld fills, seen from above: a slot of width c and length l with round
 * ends, c (l - c) + pi c^2 / 4. Filled flush, its metal is this area over the depth; walls at a right angle to the
 * plate. Refuses a slot wider than it is long. Source: plane geometry; ISO 2553 for what d, c and l are.
 */
export function holeArea(hole: Hole): Calculation<Hole> {
  const { widthMm, lengthMm } = hole;
  const refusal = firstRefusal([
    ['lengthMm', lengthMm, bounds.sectionMm],
    ['widthMm', widthMm, { ...bounds.sectionMm, max: lengthMm }],
  ]);
  if (refusal) return refused(refusal);
  const value = widthMm * (lengthMm - widthMm) + (Math.PI * widthMm ** 2) / 4;
  return calculated({ value, unit: 'mm2', inputs: hole, sources: ['geometry', 'iso2553'] });
}
