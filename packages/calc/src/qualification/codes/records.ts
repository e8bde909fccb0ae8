/** What is known about a procedure test piece; null where the record does not say. */
export interface ProcedureTest {
  code: string;
  edition: string | null;
  /** ISO 15614-1:2017 only: "1" or "2". */
  level: string | null;
  process: string | null;
  mechanisation: string | null;
  /** D short circuit, G globular, S spray, P pulsed. */
  transfer: string | null;
  /** `butt`, `tButt` or `fillet`. */
  jointType: string | null;
  product: 'plate' | 'pipe' | null;
  thicknessMm: number | null;
  diameterMm: number | null;
  throatMm: number | null;
  /** Weld metal laid by this process. */
  depositedMm: number | null;
  runs: 'single' | 'multi' | null;
  sides: 'one' | 'both' | null;
  backing: boolean | null;
  gouged: boolean | null;
  squareGroove: boolean | null;
  maxPassMm: number | null;
  branchAngleDeg: number | null;
  position: string | null;
  /** ISO/TR 15608 groups of the two parts, or P-Numbers under ASME IX. */
  materialGroups: readonly string[] | null;
  /** Lowest specified minimum yield of each part, in the order of the groups. */
  yieldsMPa: readonly number[] | null;
  filler: string | null;
  fillerGroup: string | null;
  gas: string | null;
  co2Pct: number | null;
  gasFlowLMin: number | null;
  currentType: string | null;
  wireDiameterMm: number | null;
  currentA: number | null;
  voltageV: number | null;
  wireSpeedMMin: number | null;
  travelMmMin: number | null;
  heatInputKjMm: number | null;
  preheatC: number | null;
  interpassC: number | null;
  impactRequired: boolean | null;
  impactTested: boolean | null;
  hardnessRequired: boolean | null;
  /** The columns of ASME and AWS tables are rounded, not converted: the one the shop works in. */
  tableUnit: 'mm' | 'in';
}

/** What is known about a welder's test piece; null where the certificate does not say. */
export interface WelderTest {
  code: string;
  edition: string | null;
  process: string | null;
  transfer: string | null;
  jointType: string | null;
  supplementaryFillet: boolean | null;
  product: 'plate' | 'pipe' | null;
  thicknessMm: number | null;
  depositedMm: number | null;
  diameterMm: number | null;
  layers: number | null;
  position: string | null;
  /** ISO 9606-1: `ss nb`, `ss mb`, `bs`, `ss gb`, `ss fb` for a butt; `sl`, `ml` for a fillet. */
  weldDetail: string | null;
  /** FM1 to FM6 under ISO 9606-1, F-Number under ASME IX. */
  fillerGroup: string | null;
  /** ISO 9606-1 symbols: S, M, B, A, RA, RB, RC, RR, R, C, P, V, W, Y, Z, or nm for none. */
  fillerType: string | null;
  materialGroup: string | null;
  backing: boolean | null;
  tableUnit: 'mm' | 'in';
}

/** What is known about the test of an operator or setter; null where the certificate does not say. */
export interface OperatorTest {
  code: string;
  edition: string | null;
  process: string | null;
  mechanisation: string | null;
  /** The welding unit, by the name the shop gives its cell. */
  unit: string | null;
  jointSensor: boolean | null;
  arcSensor: boolean | null;
  runs: 'single' | 'multi' | null;
  position: string | null;
  visualControl: 'direct' | 'remote' | null;
  arcLengthControl: boolean | null;
  jointTracking: boolean | null;
  backing: boolean | null;
}

function nothing<K extends string>(keys: readonly K[]): Record<K, null> {
  return Object.fromEntries(keys.map((key) => [key, null])) as Record<K, null>;
}

const procedureKeys = [
  ...(['level', 'process', 'mechanisation', 'transfer', 'jointType', 'product'] as const),
  ...(['thicknessMm', 'diameterMm', 'throatMm', 'depositedMm', 'runs', 'sides'] as const),
  ...(['backing', 'gouged', 'squareGroove', 'maxPassMm', 'branchAngleDeg', 'position'] as const),
  ...(['materialGroups', 'yieldsMPa', 'filler', 'fillerGroup', 'gas', 'co2Pct'] as const),
  ...(['gasFlowLMin', 'currentType', 'wireDiameterMm', 'currentA', 'voltageV'] as const),
  ...(['wireSpeedMMin', 'travelMmMin', 'heatInputKjMm', 'preheatC', 'interpassC'] as const),
  ...(['impactRequired', 'impactTested', 'hardnessRequired', 'edition'] as const),
] as const;

const welderKeys = [
  ...(['process', 'transfer', 'jointType', 'supplementaryFillet', 'product'] as const),
  ...(['thicknessMm', 'depositedMm', 'diameterMm', 'layers', 'position', 'weldDetail'] as const),
  ...(['fillerGroup', 'fillerType', 'materialGroup', 'backing', 'edition'] as const),
] as const;

const operatorKeys = [
  ...(['process', 'mechanisation', 'unit', 'jointSensor', 'arcSensor', 'runs'] as const),
  ...(['position', 'visualControl', 'arcLengthControl', 'jointTracking', 'backing'] as const),
  ...(['edition'] as const),
] as const;

/** A procedure test of which only the given is known. */
export function procedureTest(
  given: Partial<ProcedureTest> & Pick<ProcedureTest, 'code'>,
): ProcedureTest {
  return { ...nothing(procedureKeys), tableUnit: 'mm', ...given };
}

/** A welder's test of which only the given is known. */
export function welderTest(given: Partial<WelderTest> & Pick<WelderTest, 'code'>): WelderTest {
  return { ...nothing(welderKeys), tableUnit: 'mm', ...given };
}

/** An operator's or setter's test of which only the given is known. */
export function operatorTest(
  given: Partial<OperatorTest> & Pick<OperatorTest, 'code'>,
): OperatorTest {
  return { ...nothing(operatorKeys), ...given };
}
