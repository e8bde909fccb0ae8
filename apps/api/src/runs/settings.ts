import { judgeReadings, type FitResult } from '@tackboard/calc';
import type { FitLine, SettingVariable, SetUp, WpsRanges } from '@tackboard/contract';
import { settingVariables } from '@tackboard/contract';
import { fitWords, numberWords } from '../queue/fit-words.js';

/** What is dialled now, by variable; null where nobody has said. */
type Settings = Readonly<Record<SettingVariable, number | null>>;

const nothingSet: Settings = {
  ...{ currentA: null, voltageV: null, wireSpeedMMin: null, travelMmMin: null },
  ...{ gasFlowLMin: null, contactTipMm: null, preheatC: null },
};

const words: Readonly<Record<SettingVariable, readonly [name: string, unit: string]>> = {
  currentA: ['current', 'A'],
  voltageV: ['voltage', 'V'],
  wireSpeedMMin: ['wire speed', 'm/min'],
  travelMmMin: ['travel', 'mm/min'],
  gasFlowLMin: ['gas flow', 'l/min'],
  contactTipMm: ['contact distance', 'mm'],
  preheatC: ['preheat', '°C'],
};

function isSetting(variable: string): variable is SettingVariable {
  return (settingVariables as readonly string[]).includes(variable);
}

/** Since when the settings of a job are outside its procedure; null where the last change left them inside. */
export function outsideSince(
  changes: readonly { readonly variable: string; readonly result: string; readonly at: Date }[],
): Date | null {
  const set = changes.filter(({ variable }) => isSetting(variable));
  const inside = set.findLastIndex(({ result }) => result !== 'outside');
  return set[inside + 1]?.at ?? null;
}

/** `wire speed 9.6 m/min`. */
function settingWords(variable: SettingVariable, value: number): string {
  const [name, unit] = words[variable];
  return `${name} ${numberWords(value)} ${unit}`;
}

/** The kept set-up with the changes of the job on top, in their order. */
export function settingsAfter(
  setUp: Pick<SetUp, SettingVariable> | null,
  changes: readonly { readonly variable: string; readonly to: string }[],
): Settings {
  const kept = Object.fromEntries(
    settingVariables.map((variable) => [variable, setUp?.[variable] ?? null]),
  );
  const changed = changes.flatMap(({ variable, to }) =>
    isSetting(variable) ? [[variable, Number(to)] as const] : [],
  );
  return { ...nothingSet, ...kept, ...Object.fromEntries(changed) };
}

interface SettingsAnswer {
  readonly result: FitResult;
  readonly lines: FitLine[];
  readonly words: string[];
}

/**
 * All settings after a change against the procedure, because a change of travel changes the heat input as well.
 * Outside is a gate; inside but away from the kept set-up is told. What was typed is never changed.
 */
export function judgeSettings(facts: {
  settings: Settings;
  changed: SettingVariable;
  kept: Pick<SetUp, SettingVariable> | null;
  wps: { label: string; ranges: WpsRanges } | null;
  process: string | null;
}): SettingsAnswer {
  const { settings, changed, kept, wps } = facts;
  const now = settings[changed];
  const away = now === null ? [] : awayWords(changed, now, kept?.[changed] ?? null);
  if (wps === null) {
    const unsaid = 'No procedure is named for this run: it cannot be said whether this fits.';
    return { result: 'cannotSay', lines: [], words: [unsaid, ...away] };
  }
  const process = facts.process ?? wps.ranges.process;
  const answer = judgeReadings({ readings: settings, wps: wps.ranges, process });
  const outside = answer.lines.filter(({ result }) => result === 'outside');
  const lines = answer.lines.map((line) => ({
    ...line,
    allowed: line.allowed && [...line.allowed],
    strength: line.result === 'outside' ? ('gate' as const) : ('pass' as const),
  }));
  if (outside.length > 0) {
    const why = `${outside.map((line) => fitWords(line)).join('; ')} of ${wps.label}.`;
    return { result: 'outside', lines, words: [`${capital(why)} ${wayOut}`, ...away] };
  }
  const inside = `All that ${wps.label} limits is inside.`;
  const result = answer.lines.length === 0 ? 'cannotSay' : answer.result;
  return { result, lines, words: [inside, ...away] };
}

const wayOut =
  'No good part is counted until it is set back inside or the coordinator has signed for it; parts made so need an NCR.';

function awayWords(variable: SettingVariable, now: number, kept: number | null): string[] {
  if (kept === null || kept === now) return [];
  return [`The kept set-up has ${settingWords(variable, kept)}; now it is ${numberWords(now)}.`];
}

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
