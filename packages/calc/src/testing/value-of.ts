import type { Calculation } from '../result.js';

/** The figure of a calculation that a test expects to be given; throws with the refusal otherwise. */
export function valueOf(result: Calculation<object>): number {
  if (result.ok) return result.value;
  throw new Error(`refused: ${JSON.stringify(result.refusal)}`);
}

/** The parts of a calculation that a test expects to be given; throws with the refusal otherwise. */
export function partsOf<P>(result: { ok: true; parts: P } | { ok: false; refusal: unknown }): P {
  if (result.ok) return result.parts;
  throw new Error(`refused: ${JSON.stringify(result.refusal)}`);
}
