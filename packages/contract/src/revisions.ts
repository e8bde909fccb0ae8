import { z } from 'zod';
import { cellKinds, mechanisations } from './cells.js';
import {
  Code,
  CurrentA,
  DurationMin,
  GasFlowLMin,
  Id,
  Instant,
  LengthMm,
  quantity,
  TemperatureC,
  text,
  ThicknessMm,
  TravelMmMin,
  Version,
  VoltageV,
  WireSpeedMMin,
} from './values.js';

export const jointTypes = ['fillet', 'butt', 'corner', 'lap', 'plug'] as const;
export const positions = ['PA', 'PB', 'PC', 'PD', 'PE', 'PF', 'PG'] as const;
export const qualityLevels = ['B', 'C', 'D'] as const;

export const preparationKinds = [
  'square',
  'singleV',
  'doubleV',
  'singleBevel',
  'doubleBevel',
  'singleU',
  'singleJ',
] as const;
export const backings = ['none', 'metal', 'ceramic', 'fluxOrGas'] as const;

/** How the edges of a butt weld are prepared. What a kind does not have, as the radius of a V, is not looked at. */
export const Preparation = z.object({
  kind: z.enum(preparationKinds),
  gapMm: quantity(0, 100),
  rootFaceMm: quantity(0, 500),
  /** Included for a V, of one plate from the square edge for the others. */
  angleDeg: quantity(0, 360),
  rootRadiusMm: quantity(0, 100),
  capHeightMm: quantity(0, 50),
  backing: z.enum(backings),
});
export type Preparation = z.infer<typeof Preparation>;

export const WeldInput = z
  .object({
    number: z.number().int().min(1).max(999),
    jointType: z.enum(jointTypes),
    throatMm: quantity(0.5, 100).nullable(),
    legMm: quantity(0.5, 150).nullable(),
    grooveDepthMm: quantity(0.5, 300).nullable(),
    /** Of a plug weld: across its slot, or the diameter of its round hole. The hole is in part A, as long as the weld. */
    holeWidthMm: quantity(1, 300).nullable().default(null),
    preparation: Preparation.nullable().default(null),
    lengthMm: LengthMm,
    count: z.number().int().min(1).max(999),
    thicknessAMm: ThicknessMm,
    thicknessBMm: ThicknessMm,
    materialA: text(40),
    materialB: text(40),
    materialGroupA: text(10),
    materialGroupB: text(10),
    position: z.enum(positions),
    process: text(10),
    stepNumber: z.number().int().min(1).max(20),
    qualityLevel: z.enum(qualityLevels),
    /** How far the throat or leg may be under and over the drawn size; null is not at all under, and no limit over. */
    sizeUnderMm: quantity(0, 50).nullable(),
    sizeOverMm: quantity(0, 50).nullable(),
    notes: text(500, 0),
  })
  .refine((w) => w.jointType !== 'fillet' || w.throatMm !== null || w.legMm !== null, {
    error: 'a fillet needs a throat a or a leg z',
    path: ['throatMm'],
  })
  .refine((w) => w.throatMm === null || w.legMm === null || w.throatMm <= w.legMm, {
    error: 'the throat a must not be larger than the leg z',
    path: ['throatMm'],
  })
  .refine((w) => w.holeWidthMm === null || w.jointType === 'plug', {
    error: 'only a plug weld has a hole; leave its width empty',
    path: ['holeWidthMm'],
  })
  .refine((w) => w.holeWidthMm === null || w.holeWidthMm <= w.lengthMm, {
    error: 'a hole is not wider than it is long; a round one is as long as it is wide',
    path: ['holeWidthMm'],
  });
export const Weld = WeldInput.safeExtend({ id: Id });
export type Weld = z.infer<typeof Weld>;

export const SetUp = z.object({
  id: Id,
  version: Version,
  stepId: Id,
  cellId: Id,
  cellCode: z.string(),
  wireItemId: Id.nullable(),
  wireName: z.string().nullable(),
  wireDesignation: z.string().nullable(),
  wireDiameterMm: z.number().nullable(),
  gasItemId: Id.nullable(),
  gasName: z.string().nullable(),
  gasDesignation: z.string().nullable(),
  torch: z.string(),
  mechanisation: z.enum(mechanisations),
  currentA: z.number().nullable(),
  voltageV: z.number().nullable(),
  wireSpeedMMin: z.number().nullable(),
  travelMmMin: z.number().nullable(),
  gasFlowLMin: z.number().nullable(),
  contactTipMm: z.number().nullable(),
  preheatC: z.number().nullable(),
  programId: Id.nullable(),
  programName: z.string().nullable(),
  programRevision: z.string().nullable(),
  fixtureId: Id.nullable(),
  fixtureCode: z.string().nullable(),
  fixturePlace: z.string().nullable(),
  fixtureCondition: z.string().nullable(),
  watchOuts: z.array(z.string()),
  frozenAt: Instant,
  frozenBy: z.string(),
  frozenFromRunId: Id.nullable(),
});
export type SetUp = z.infer<typeof SetUp>;

export const SetUpInput = z.object({
  cellId: Id,
  wireItemId: Id.nullable(),
  gasItemId: Id.nullable(),
  torch: text(80, 0),
  mechanisation: z.enum(mechanisations),
  currentA: CurrentA.nullable(),
  voltageV: VoltageV.nullable(),
  wireSpeedMMin: WireSpeedMMin.nullable(),
  travelMmMin: TravelMmMin.nullable(),
  gasFlowLMin: GasFlowLMin.nullable(),
  contactTipMm: quantity(1, 60).nullable(),
  preheatC: TemperatureC.nullable(),
  programId: Id.nullable(),
  programRevision: text(20).nullable(),
  fixtureId: Id.nullable(),
  watchOuts: z.array(text(200)).max(3),
});

export const StepInput = z.object({
  number: z.number().int().min(1).max(20),
  name: text(80),
  cellKind: z.enum(cellKinds),
  wpsNumber: Code.nullable(),
  setUpMin: DurationMin,
  firstPieceMin: DurationMin,
  unitMin: DurationMin,
  startStopS: quantity(0, 600),
  airMovesS: quantity(0, 36_000),
  cleaningS: quantity(0, 3_600),
  loadS: quantity(0, 36_000),
  /** Of the part with its fixture; null where it is not known. */
  massKg: quantity(0.001, 100_000).nullable().default(null),
  /** How far from the robot or the middle of the booth the farthest weld lies; null where it is not known. */
  reachMm: quantity(1, 50_000).nullable().default(null),
  instructions: text(2000, 0),
  holdPoint: z.boolean(),
  /** Minutes the inspector has to come after the step; null where there is no witness point. */
  witnessMin: z
    .number()
    .int('must be whole minutes')
    .min(5, 'must be 5 minutes or more')
    .max(10_080, 'must be 10 080 minutes or less')
    .nullable(),
});
export const Step = StepInput.extend({ id: Id, version: Version, setUps: z.array(SetUp) });
export type Step = z.infer<typeof Step>;

export const revisionStates = ['draft', 'released', 'superseded'] as const;
export const Revision = z.object({
  id: Id,
  version: Version,
  partId: Id,
  partNumber: z.string(),
  partName: z.string(),
  label: z.string(),
  drawingNumber: z.string(),
  drawingPrint: z.string().nullable(),
  state: z.enum(revisionStates),
  changeNote: z.string(),
  releasedAt: Instant.nullable(),
  releasedBy: z.string().nullable(),
  welds: z.array(Weld),
  steps: z.array(Step),
});
export type Revision = z.infer<typeof Revision>;
