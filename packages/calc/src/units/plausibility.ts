import { converted, type UnitName } from './units.js';

/** What may be asked about; whatever is left out, or is no number, is not asked about. */
export interface AskedSettings {
  currentA?: number | null | undefined;
  voltageV?: number | null | undefined;
  travelMmMin?: number | null | undefined;
  wireSpeedMMin?: number | null | undefined;
  wireDiameterMm?: number | null | undefined;
  gasFlowLMin?: number | null | undefined;
  preheatC?: number | null | undefined;
  throatMm?: number | null | undefined;
  legMm?: number | null | undefined;
  thinnerPlateMm?: number | null | undefined;
}

type Setting = keyof AskedSettings;
type Values = Partial<Record<Setting, number>>;

export type QuestionCode =
  | 'voltsAndAmpsSwapped'
  | 'voltageOffTheLine'
  | 'travelTenTimesHigh'
  | 'travelInMillimetres'
  | 'travelInCentimetres'
  | 'travelInInches'
  | 'travelInMetres'
  | 'wireSpeedInInches'
  | 'wireSpeedInMillimetres'
  | 'wireSpeedInMetres'
  | 'wireDiameterInInches'
  | 'wireDiameterInMillimetres'
  | 'wireDiameterTenTimesHigh'
  | 'gasFlowInCubicFeet'
  | 'gasFlowInLitres'
  | 'preheatInFahrenheit'
  | 'throatAndLegSwapped'
  | 'filletLargeForPlate';

/** A question to whoever typed it. `perhaps` is what was meant if the answer is yes; nothing is changed by it. */
export interface Question {
  code: QuestionCode;
  given: Values;
  perhaps: Values;
}

interface Range {
  min: number;
  max: number;
}

/** Where settings of arc welding with a fed wire mostly lie; common practice, not a limit. */
const usual: Partial<Record<Setting, Range>> = {
  currentA: { min: 40, max: 600 },
  voltageV: { min: 10, max: 48 },
  travelMmMin: { min: 100, max: 2_000 },
  wireSpeedMMin: { min: 1, max: 25 },
  wireDiameterMm: { min: 0.6, max: 4 },
  gasFlowLMin: { min: 5, max: 30 },
  preheatC: { min: 0, max: 300 },
};

/** The unit in which a setting is stored, and so the one of the names above. */
const storedIn: Partial<Record<Setting, UnitName>> = {
  travelMmMin: 'mm/min',
  wireSpeedMMin: 'm/min',
  wireDiameterMm: 'mm',
  gasFlowLMin: 'l/min',
  preheatC: 'C',
};

/** The units in which settings were typed, where these are not the stored ones. */
export type TypedIn = Partial<Record<Setting, UnitName>>;

/** Slips that bring an unusual value back among the usual ones: a tenfold one, or a number meant in another unit. */
const slips: readonly [QuestionCode, Setting, 'tenTimes' | UnitName][] = [
  ['travelTenTimesHigh', 'travelMmMin', 'tenTimes'],
  ['travelInMillimetres', 'travelMmMin', 'mm/min'],
  ['travelInCentimetres', 'travelMmMin', 'cm/min'],
  ['travelInInches', 'travelMmMin', 'in/min'],
  ['travelInMetres', 'travelMmMin', 'm/min'],
  ['wireSpeedInInches', 'wireSpeedMMin', 'in/min'],
  ['wireSpeedInMillimetres', 'wireSpeedMMin', 'mm/min'],
  ['wireSpeedInMetres', 'wireSpeedMMin', 'm/min'],
  ['wireDiameterInInches', 'wireDiameterMm', 'in'],
  ['wireDiameterInMillimetres', 'wireDiameterMm', 'mm'],
  ['wireDiameterTenTimesHigh', 'wireDiameterMm', 'tenTimes'],
  ['gasFlowInCubicFeet', 'gasFlowLMin', 'cfh'],
  ['gasFlowInLitres', 'gasFlowLMin', 'l/min'],
  ['preheatInFahrenheit', 'preheatC', 'F'],
];

/** Conventional load voltage of a fed wire, IEC 60974-1, from memory: 14 + 0.05 I. Further off is asked about. */
const line = { atNought: 14, perAmpere: 0.05, offShare: 0.4 };
/** A leg of more than this many times the thinner plate is asked about; common practice. */
const largeLeg = 1.5;

function isUsual(setting: Setting, value: number): boolean {
  const range = usual[setting];
  return range !== undefined && value >= range.min && value <= range.max;
}

function numbersOf(settings: AskedSettings): Values {
  const known = Object.entries(settings).filter(
    ([, value]) => Number.isFinite(value) && Number(value) > 0,
  );
  return Object.fromEntries(known);
}

function electrical({ currentA, voltageV }: Values): Question[] {
  if (currentA === undefined || voltageV === undefined) return [];
  const given = { currentA, voltageV };
  if (voltageV > currentA && isUsual('currentA', voltageV) && isUsual('voltageV', currentA)) {
    const perhaps = { currentA: voltageV, voltageV: currentA };
    return [{ code: 'voltsAndAmpsSwapped', given, perhaps }];
  }
  const expected = line.atNought + line.perAmpere * currentA;
  if (Math.abs(voltageV / expected - 1) <= line.offShare) return [];
  return [{ code: 'voltageOffTheLine', given, perhaps: { voltageV: expected } }];
}

function sizes({ throatMm, legMm, thinnerPlateMm }: Values): Question[] {
  const asked: Question[] = [];
  if (throatMm !== undefined && legMm !== undefined && throatMm > legMm) {
    const perhaps = { throatMm: legMm, legMm: throatMm };
    asked.push({ code: 'throatAndLegSwapped', given: { throatMm, legMm }, perhaps });
  }
  const leg = legMm ?? (throatMm === undefined ? undefined : throatMm * Math.SQRT2);
  if (leg !== undefined && thinnerPlateMm !== undefined && leg > largeLeg * thinnerPlateMm) {
    // What was typed, not what follows from it.
    const typed = legMm === undefined ? { throatMm } : { legMm };
    const given = { ...typed, thinnerPlateMm } as Values;
    asked.push({ code: 'filletLargeForPlate', given, perhaps: {} });
  }
  return asked;
}

/** What was meant if the number was typed as another unit's; null where that is the unit of the field itself. */
function meant(value: number, setting: Setting, slip: 'tenTimes' | UnitName, typedIn: TypedIn) {
  if (slip === 'tenTimes') return value / 10;
  const stored = storedIn[setting] ?? slip;
  const typedUnit = typedIn[setting] ?? stored;
  return typedUnit === slip ? null : converted(converted(value, stored, typedUnit), slip, stored);
}

/**
 * Questions about settings that are possible but unlike what people mean: volts and amps swapped, a travel ten
 * times too high, inches typed for millimetres. `typedIn` names the units of the fields where they are not the
 * stored ones. Values are never corrected; an empty list says that nothing stood out, not that the settings are
 * right. Source: common practice.
 */
export function settingQuestions(settings: AskedSettings, typedIn: TypedIn = {}): Question[] {
  const values = numbersOf(settings);
  const readings = slips.flatMap(([code, setting, slip]): Question[] => {
    const value = values[setting];
    if (value === undefined || isUsual(setting, value)) return [];
    const perhaps = meant(value, setting, slip, typedIn);
    if (perhaps === null || !isUsual(setting, perhaps)) return [];
    return [{ code, given: { [setting]: value }, perhaps: { [setting]: perhaps } }];
  });
  return [...electrical(values), ...readings, ...sizes(values)];
}
