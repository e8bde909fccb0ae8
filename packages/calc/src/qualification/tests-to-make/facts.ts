import type { SuggestedRanges } from '../codes/index.js';

interface PartToJoin {
  /** ISO/TR 15608 group, or P-Number under ASME IX. */
  group: string;
  /** As the drawing names it: "S355J2". */
  material: string;
  thicknessMm: number;
}

/** A weld for which a procedure, or a person, is wanted; null where the weld list does not say. */
export interface WeldInNeed {
  id: string;
  process: string;
  mechanisation: string;
  jointType: string;
  position: string;
  parts: readonly [PartToJoin, PartToJoin];
  throatMm: number | null;
  /** Of a butt weld the metal that counts: the groove, or the thinner part. */
  depositedMm: number | null;
  /** Cells at which it may be made, by name; the certificate of an operator is bound to one. */
  units: readonly string[];
}

export interface PieceMaterial {
  group: string;
  material: string;
}

/** A test piece that could be welded. Plate throughout; null where the code sets nothing by it. */
export interface TestToMake {
  process: string;
  mechanisation: string;
  jointType: string;
  position: string;
  materials: readonly [PieceMaterial, PieceMaterial] | null;
  thicknessMm: number | null;
  throatMm: number | null;
  unit: string | null;
}

/** What the contract and the job say beyond the weld list. */
export interface TestConditions {
  /** Impact or hardness properties are demanded; the piece is then tested for them. Unknown counts as demanded. */
  propertiesDemanded: boolean;
  /** `unknown` is judged by the narrower of both rows. */
  runs: 'single' | 'multi' | 'unknown';
}

/** A variable that the weld list tells, in the order in which what misses is named. */
export type NeedVariable =
  | 'process'
  | 'mechanisation'
  | 'unit'
  | 'jointType'
  | 'position'
  | 'materialGroup'
  | 'thickness'
  | 'throat';

export type TestsFor = 'procedures' | 'people';

/** One code and edition as a maker of test pieces. Codes are never mixed. */
export interface TestBook {
  code: string;
  edition: string;
  for: TestsFor;
  /** What a test piece is judged by; a variable that is left out is none of the code's. */
  variables: readonly NeedVariable[];
  /** Mechanisations it is written for; null for all. */
  mechanisations: readonly string[] | null;
  /** Joints that the code has test pieces for. */
  joints: readonly string[];
  /** Test positions of plate, by joint; as the code names them. */
  positions: Readonly<Record<string, readonly string[]>>;
  /** Thicknesses in mm at which a row of the tables begins to reach further, by joint. */
  stepsMm: Readonly<Record<string, readonly number[]>>;
  ranges: (piece: TestToMake, conditions: TestConditions) => SuggestedRanges;
}
