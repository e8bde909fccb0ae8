import {
  filletThroat,
  fitPolicy,
  fitWeld,
  strongest,
  worstResult,
  yieldFromName,
  type FitLine as Judged,
  type FitVariable,
  type PolicyTable,
  type SettingFacts,
  type Strength,
} from '@tackboard/calc';
import type { FitAnswer, SetUp, Weld } from '@tackboard/contract';
import type { StepFacts } from './facts.js';

/** What is dialled or loaded: without a set-up there is nothing yet that could be outside. */
const dialled: ReadonlySet<FitVariable> = new Set([
  ...(['wireDiameter', 'filler', 'gas', 'current', 'voltage'] as const),
  ...(['wireSpeed', 'travel', 'heatInput'] as const),
]);

export type DialledSetUp = Pick<
  SetUp,
  | 'mechanisation'
  | 'wireDiameterMm'
  | 'wireDesignation'
  | 'gasDesignation'
  | 'currentA'
  | 'voltageV'
  | 'wireSpeedMMin'
  | 'travelMmMin'
  | 'preheatC'
>;

/** What the fit of a step is judged from, queued or not. */
export interface FitFacts extends Pick<StepFacts, 'wps' | 'welds'> {
  readonly record: Pick<StepFacts['record'], 'coded' | 'wpsNumber'>;
  readonly cell: Pick<StepFacts['cell'], 'mechanisation'>;
  readonly setUp: DialledSetUp | null;
  readonly policy: PolicyTable;
}

interface JudgedWeld {
  readonly weldNumber: number;
  readonly lines: readonly { readonly judged: Judged; readonly strength: Strength }[];
}

export interface StepFit {
  readonly answer: FitAnswer;
  readonly welds: readonly JudgedWeld[];
}

/** The welds of a step against its procedure and the kept set-up, a line per variable and weld. */
export function fitOf(facts: FitFacts): StepFit {
  const { wps } = facts;
  const welds =
    wps === null
      ? []
      : facts.welds.map((weld) => ({
          weldNumber: weld.number,
          lines: fitWeld({
            weld: weldFacts(weld),
            settings: settingsOf(facts),
            wps: wps.ranges,
          }).lines.map((judged) => ({ judged, strength: strengthOf(judged, facts) })),
        }));
  return { welds, answer: answerOf(facts, welds) };
}

function answerOf({ wps, record, welds: list }: FitFacts, welds: readonly JudgedWeld[]): FitAnswer {
  const judged = welds.map(({ weldNumber, lines }) => ({
    weldNumber,
    result: worstResult(lines.map((line) => line.judged.result)),
    lines: lines.map((line) => ({
      ...line.judged,
      allowed: line.judged.allowed && [...line.judged.allowed],
      strength: line.strength,
    })),
  }));
  const nothingToJudge = list.length === 0 || record.wpsNumber === null;
  return {
    result: worstResult(judged.map(({ result }) => result)),
    strength: nothingToJudge
      ? 'tell'
      : strongest(judged.flatMap(({ lines }) => lines.map(({ strength }) => strength))),
    wpsId: wps?.id ?? null,
    wpsLabel: wps === null ? null : `${wps.number} r${wps.revision}`,
    welds: judged,
  };
}

/**
 * The shop's policy, told only where nothing can be outside: before a set-up is kept, and where the procedure
 * states no range for a value that the process does not dial.
 */
function strengthOf(line: Judged, { record, setUp, policy }: FitFacts): Strength {
  const { variable, result } = line;
  const silent = line.reason === 'rangeMissing' && line.given === null;
  if (result === 'cannotSay' && dialled.has(variable) && (setUp === null || silent)) return 'tell';
  return fitPolicy({ variable, result, coded: record.coded, table: policy });
}

/** A weld as the rules of fit see it; a leg counts as the throat that it makes. */
export function weldFacts(weld: Weld) {
  return {
    process: weld.process,
    materialGroups: [weld.materialGroupA, weld.materialGroupB],
    yieldsMPa: [yieldFromName(weld.materialA), yieldFromName(weld.materialB)],
    thicknessesMm: [weld.thicknessAMm, weld.thicknessBMm],
    jointType: weld.jointType,
    throatMm: throatOf(weld),
    position: weld.position,
  };
}

function throatOf({ throatMm, legMm }: Weld): number | null {
  if (throatMm !== null || legMm === null) return throatMm;
  const throat = filletThroat({ legMm });
  return throat.ok ? throat.value : null;
}

function settingsOf({ setUp, cell }: FitFacts): SettingFacts {
  return {
    mechanisation: setUp?.mechanisation ?? cell.mechanisation,
    wireDiameterMm: setUp?.wireDiameterMm ?? null,
    filler: setUp?.wireDesignation ?? null,
    gas: setUp?.gasDesignation ?? null,
    currentA: setUp?.currentA ?? null,
    voltageV: setUp?.voltageV ?? null,
    wireSpeedMMin: setUp?.wireSpeedMMin ?? null,
    travelMmMin: setUp?.travelMmMin ?? null,
    preheatC: setUp?.preheatC ?? null,
  };
}
