import { z } from 'zod';
import { Preparation } from './revisions.js';
import { quantity, Range, TemperatureC, text, ThicknessMm } from './values.js';

/** Direct current with the electrode at plus or at minus, and alternating current. */
export const currentKinds = ['DC+', 'DC-', 'AC'] as const;
export const beads = ['stringer', 'weave'] as const;
export const weldedFrom = ['one', 'both'] as const;

/** A plate as it is drawn on the procedure, with the preparation of its edges. */
export const WpsGroove = z.object({
  thicknessMm: ThicknessMm,
  /** How deep the weld goes; null where it goes through. */
  depthMm: quantity(0.5, 300).nullable(),
  preparation: Preparation,
});
export type WpsGroove = z.infer<typeof WpsGroove>;

const Words = text(300, 0);
const Minutes = quantity(1, 100_000).nullable();

/**
 * What ISO 15609-1, clause 4, asks of a procedure beside its ranges (from memory). Empty or null is not stated. Times
 * are minutes; temperatures degC, sizes mm, flows l/min.
 */
export const WpsDetails = z.object({
  groove: WpsGroove.nullable(),
  sides: z.enum(weldedFrom).nullable(),
  cleaning: Words,
  tacking: Words,
  backing: Words,
  backGouging: Words,
  runSequence: text(500, 0),
  bead: z.enum(beads).nullable(),
  weaveMaxMm: quantity(0.1, 200).nullable(),
  torchAngle: Words,
  currentKind: z.enum(currentKinds).nullable(),
  pulse: Words,
  transfer: text(30, 0),
  fillerMake: Words,
  fillerHandling: Words,
  tungsten: Words,
  tungstenMm: quantity(0.1, 20).nullable(),
  nozzleMm: quantity(1, 100).nullable(),
  contactTipDistanceMm: Range.nullable(),
  gasFlowLMin: Range.nullable(),
  backingGas: Words,
  backingGasFlowLMin: Range.nullable(),
  preheatKeepC: TemperatureC.nullable(),
  interpassMinC: TemperatureC.nullable(),
  /** Held after welding so that hydrogen can leave; not the heat treatment below. */
  postHeatC: TemperatureC.nullable(),
  postHeatMin: Minutes,
  heatTreatment: Words,
  heatTreatmentC: Range.nullable(),
  heatTreatmentMin: Minutes,
});
export type WpsDetails = z.infer<typeof WpsDetails>;

/** A procedure that states none of it, as every one did before there were fields for it. */
export const noWpsDetails: WpsDetails = {
  ...{ groove: null, sides: null, cleaning: '', tacking: '', backing: '', backGouging: '' },
  ...{ runSequence: '', bead: null, weaveMaxMm: null, torchAngle: '', currentKind: null },
  ...{ pulse: '', transfer: '', fillerMake: '', fillerHandling: '', tungsten: '' },
  ...{ tungstenMm: null, nozzleMm: null, contactTipDistanceMm: null, gasFlowLMin: null },
  ...{ backingGas: '', backingGasFlowLMin: null, preheatKeepC: null, interpassMinC: null },
  ...{ postHeatC: null, postHeatMin: null, heatTreatment: '', heatTreatmentC: null },
  heatTreatmentMin: null,
};

export const comparisons = ['agrees', 'ask', 'cannotSay'] as const;

/** A detail that the code of a record makes an essential variable, held against what the rule gives for its test. */
export const WpsComparison = z.object({
  variable: z.enum(['backing', 'currentType', 'transfer']),
  wpqrNumber: z.string(),
  answer: z.enum(comparisons),
  words: z.string(),
  rule: z.string(),
});
export type WpsComparison = z.infer<typeof WpsComparison>;
