import { arcEnergy, heatInput, kFactor } from '../process/arc-energy.js';
import {
  answerOf,
  type DrawingVariable,
  type FitAnswer,
  type FitLine,
  type FitVariable,
} from './answer.js';
import { judgeJoinedGroups } from './joined-groups.js';
import { judgeListed, judgeNumber, judgeNumbers, type Range } from './range.js';

/** What the drawing asks for. Every joined part is checked. */
export interface WeldFacts {
  process: string;
  materialGroups: readonly string[];
  /** Specified minimum yield of each part, in their order; null where it is not known, left out where nobody asks. */
  yieldsMPa?: readonly (number | null)[];
  thicknessesMm: readonly number[];
  jointType: string;
  throatMm: number | null;
  position: string;
}

/** What is loaded and dialled at the cell; null where it is not known. */
export interface SettingFacts {
  mechanisation: string | null;
  wireDiameterMm: number | null;
  filler: string | null;
  gas: string | null;
  currentA: number | null;
  voltageV: number | null;
  wireSpeedMMin: number | null;
  travelMmMin: number | null;
  preheatC: number | null;
  /** Left out while nothing has been welded yet: there is no temperature between runs to judge. */
  interpassC?: number | null;
}

/** The variables of a procedure; an empty list or a null range is a variable on which it says nothing. */
export interface WpsRanges {
  process: string;
  mechanisations: readonly string[];
  materialGroups: readonly string[];
  jointTypes: readonly string[];
  positions: readonly string[];
  fillers: readonly string[];
  gases: readonly string[];
  /** Specified minimum yield of the parts; null or left out where the procedure does not state it. */
  yieldMPa?: Range | null | undefined;
  thicknessMm: Range | null;
  throatMm: Range | null;
  wireDiameterMm: Range | null;
  currentA: Range | null;
  voltageV: Range | null;
  wireSpeedMMin: Range | null;
  travelMmMin: Range | null;
  heatInputKjMm: Range | null;
  heatInputBasis: 'heatInput' | 'arcEnergy';
  /** Null: the procedure demands no preheat. */
  preheatMinC: number | null;
  /** Null: the procedure limits no interpass temperature. */
  interpassMaxC: number | null;
}

type Arc = Pick<SettingFacts, 'currentA' | 'voltageV' | 'travelMmMin'>;

/**
 * One weld against a procedure and the settings at the cell, a line per variable; the whole is the worst line.
 * Limits are inclusive and compared unrounded. The ranges are those QA typed from the signed record.
 */
export function fitWeld(facts: {
  weld: WeldFacts;
  settings: SettingFacts;
  wps: WpsRanges;
}): FitAnswer {
  const { weld, settings, wps } = facts;
  return answerOf([
    ...weldLines(weld, settings, wps),
    ...consumableLines(settings, wps),
    ...electricalLines(settings, wps),
    heatInputLine(settings, wps, weld.process),
    ...temperatureLines(settings, wps),
  ]);
}

/** The readings of a run, only where given; heat input where current, voltage and travel are all given. */
export function judgeReadings(facts: {
  readings: {
    [K in 'currentA' | 'voltageV' | 'wireSpeedMMin' | 'travelMmMin' | 'preheatC' | 'interpassC']?:
      number | null | undefined;
  };
  wps: WpsRanges;
  process: string;
}): FitAnswer {
  const { readings, wps, process } = facts;
  const read = {
    currentA: readings.currentA ?? null,
    voltageV: readings.voltageV ?? null,
    wireSpeedMMin: readings.wireSpeedMMin ?? null,
    travelMmMin: readings.travelMmMin ?? null,
    preheatC: readings.preheatC ?? null,
    interpassC: readings.interpassC ?? null,
  };
  const lines = [...electricalLines(read, wps), ...temperatureLines(read, wps)];
  const given = lines.filter((line) => readingOf(line.variable, read) !== null);
  const hasArc = [read.currentA, read.voltageV, read.travelMmMin].every((value) => value !== null);
  return answerOf(hasArc ? [...given, heatInputLine(read, wps, process)] : given);
}

type Readings = Pick<
  SettingFacts,
  'currentA' | 'voltageV' | 'wireSpeedMMin' | 'travelMmMin' | 'preheatC' | 'interpassC'
>;

function readingOf(variable: FitVariable, read: Readings): number | null {
  const byVariable: Partial<Record<FitVariable, number | null>> = {
    current: read.currentA,
    voltage: read.voltageV,
    wireSpeed: read.wireSpeedMMin,
    travel: read.travelMmMin,
    preheat: read.preheatC,
    interpass: read.interpassC ?? null,
  };
  return byVariable[variable] ?? null;
}

const drawingLines: Readonly<
  Record<
    DrawingVariable,
    (weld: WeldFacts, wps: WpsRanges, cell: { mechanisation?: string | null }) => FitLine
  >
> = {
  process: (weld, wps) => {
    const allowed = wps.process.trim() === '' ? [] : [wps.process];
    return judgeListed({ variable: 'process', given: weld.process, allowed });
  },
  mechanisation: (_, { mechanisations: allowed }, { mechanisation: given = null }) =>
    judgeListed({ variable: 'mechanisation', given, allowed }),
  materialGroup: (weld, { materialGroups: allowed }) =>
    judgeJoinedGroups({ variable: 'materialGroup', allowed }, weld.materialGroups),
  yield: (weld, { yieldMPa: range = null }) =>
    judgeNumbers({ variable: 'yield', unit: 'MPa', range }, yieldsAsked(weld, range)),
  thickness: (weld, { thicknessMm: range }) =>
    judgeNumbers({ variable: 'thickness', unit: 'mm', range }, weld.thicknessesMm),
  jointType: (weld, { jointTypes: allowed }) =>
    judgeListed({ variable: 'jointType', given: weld.jointType, allowed }),
  throat: (weld, { throatMm: range }) =>
    judgeNumber({ variable: 'throat', unit: 'mm', given: weld.throatMm, range }),
  position: (weld, { positions: allowed }) =>
    judgeListed({ variable: 'position', given: weld.position, allowed }),
};
const inOrder = Object.keys(drawingLines) as readonly DrawingVariable[];

const byYield = /^(1|2|3|11)(\.\d+)?$/;
/** Sub-groups that end at a yield of their own, so that naming them says nearly as much. */
const endAtYield = /^(1|11)\.[12]$/;

/**
 * The yields that count: within groups 1, 2, 3 and 11 a test covers equal or lower yield only. ISO 15614-1, 8.3.1.
 * Where a procedure states none, it is missed where a sub-group leaves it open. An unknown yield is not a number.
 */
function yieldsAsked({ yieldsMPa = [], materialGroups }: WeldFacts, range: Range | null): number[] {
  const isStated = range !== null && (range.min !== null || range.max !== null);
  const counts = (group = '') =>
    byYield.test(group.trim()) && (isStated || !endAtYield.test(group.trim()));
  return yieldsMPa.flatMap((mpa, part) =>
    counts(materialGroups[part]) ? [mpa ?? Number.NaN] : [],
  );
}

/** A lap weld is a fillet too; its throat counts where the drawing gives one. */
export function hasThroat({
  jointType,
  throatMm,
}: Pick<WeldFacts, 'jointType' | 'throatMm'>): boolean {
  return jointType === 'fillet' || (jointType === 'lap' && throatMm !== null);
}

/** One of the lines below, or null where the variable is none of them for this weld. */
export function weldLine(
  variable: FitVariable,
  facts: { weld: WeldFacts; cell: { mechanisation?: string | null }; wps: WpsRanges },
): FitLine | null {
  const { weld, cell, wps } = facts;
  const isAsked =
    (variable !== 'mechanisation' || cell.mechanisation !== undefined) &&
    (variable !== 'yield' || yieldsAsked(weld, wps.yieldMPa ?? null).length > 0) &&
    (variable !== 'throat' || hasThroat(weld));
  const line = isAsked ? drawingLines[variable as DrawingVariable] : undefined;
  return line?.(weld, wps, cell) ?? null;
}

/**
 * The lines of a weld that hang on the drawing alone, before anything is loaded or dialled. The mechanisation of a
 * cell is judged where one is given.
 */
export function weldLines(
  weld: WeldFacts,
  cell: { mechanisation?: string | null },
  wps: WpsRanges,
): FitLine[] {
  const lines: FitLine[] = [];
  for (const variable of inOrder) {
    const line = weldLine(variable, { weld, cell, wps });
    if (line !== null) lines.push(line);
  }
  return lines;
}

function consumableLines(settings: SettingFacts, wps: WpsRanges): FitLine[] {
  return [
    judgeNumber({
      variable: 'wireDiameter',
      unit: 'mm',
      given: settings.wireDiameterMm,
      range: wps.wireDiameterMm,
    }),
    judgeListed({ variable: 'filler', given: settings.filler, allowed: wps.fillers }),
    judgeListed({ variable: 'gas', given: settings.gas, allowed: wps.gases }),
  ];
}

function electricalLines(
  given: Pick<SettingFacts, 'currentA' | 'voltageV' | 'wireSpeedMMin' | 'travelMmMin'>,
  wps: WpsRanges,
): FitLine[] {
  return [
    judgeNumber({ variable: 'current', unit: 'A', given: given.currentA, range: wps.currentA }),
    judgeNumber({ variable: 'voltage', unit: 'V', given: given.voltageV, range: wps.voltageV }),
    judgeNumber({
      variable: 'wireSpeed',
      unit: 'm/min',
      given: given.wireSpeedMMin,
      range: wps.wireSpeedMMin,
    }),
    judgeNumber({
      variable: 'travel',
      unit: 'mm/min',
      given: given.travelMmMin,
      range: wps.travelMmMin,
    }),
  ];
}

function heatInputLine(arc: Arc, wps: WpsRanges, process: string): FitLine {
  const line = judgeNumber({
    variable: 'heatInput',
    unit: 'kJ/mm',
    given: heatOf(arc, wps.heatInputBasis, process),
    range: wps.heatInputKjMm,
  });
  const factorMissing = wps.heatInputBasis === 'heatInput' && kFactor(process) === null;
  return line.reason === 'valueMissing' && factorMissing
    ? { ...line, reason: 'factorUnknown' }
    : line;
}

function heatOf(arc: Arc, basis: WpsRanges['heatInputBasis'], process: string): number | null {
  const { currentA, voltageV, travelMmMin } = arc;
  if (currentA === null || voltageV === null || travelMmMin === null) return null;
  const heat =
    basis === 'arcEnergy'
      ? arcEnergy({ currentA, voltageV, travelMmMin })
      : heatInput({ currentA, voltageV, travelMmMin, process });
  return heat.ok ? heat.value : null;
}

function temperatureLines(
  given: Pick<SettingFacts, 'preheatC' | 'interpassC'>,
  wps: WpsRanges,
): FitLine[] {
  const preheat = judgeNumber({
    variable: 'preheat',
    unit: 'degC',
    given: given.preheatC,
    range: { min: wps.preheatMinC, max: null },
  });
  const lines: FitLine[] = [
    wps.preheatMinC === null
      ? { ...preheat, result: 'inside', reason: 'notDemanded' }
      : { ...preheat, reason: preheat.result === 'outside' ? 'tooCold' : preheat.reason },
  ];
  if (wps.interpassMaxC !== null && given.interpassC !== undefined) {
    const interpass = judgeNumber({
      variable: 'interpass',
      unit: 'degC',
      given: given.interpassC,
      range: { min: null, max: wps.interpassMaxC },
    });
    lines.push({
      ...interpass,
      reason: interpass.result === 'outside' ? 'tooHot' : interpass.reason,
    });
  }
  return lines;
}
