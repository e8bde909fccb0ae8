import type { StartPoint } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';
import { shopUnits } from '$lib/units/shop-units.svelte.js';

type Cause =
  | 'setUp'
  | 'waitingParts'
  | 'waitingProgram'
  | 'waitingInspection'
  | 'waitingPerson'
  | 'fault'
  | 'rework'
  | 'break';

const causes: Record<Cause, () => string> = {
  setUp: m.cell_cause_setUp,
  waitingParts: m.cell_cause_waitingParts,
  waitingProgram: m.cell_cause_waitingProgram,
  waitingInspection: m.cell_cause_waitingInspection,
  waitingPerson: m.cell_cause_waitingPerson,
  fault: m.cell_cause_fault,
  rework: m.cell_cause_rework,
  break: m.cell_cause_break,
};

export function causeWord(cause: Cause): string {
  return causes[cause]();
}

const joints: Readonly<Record<string, () => string>> = {
  fillet: m.cell_joint_fillet,
  butt: m.cell_joint_butt,
};

/** A kind of joint as people say it; what is not known here stays as it is stored. */
export function jointWord(joint: string): string {
  return joints[joint]?.() ?? joint;
}

const variables: Readonly<Record<string, () => string>> = {
  process: m.cell_var_process,
  mechanisation: m.cell_var_mechanisation,
  materialGroup: m.cell_var_materialGroup,
  yield: m.cell_var_yield,
  thickness: m.cell_var_thickness,
  jointType: m.cell_var_jointType,
  throat: m.cell_var_throat,
  position: m.cell_var_position,
  wireDiameter: m.cell_var_wireDiameter,
  filler: m.cell_var_filler,
  gas: m.cell_var_gas,
  current: m.cell_var_current,
  voltage: m.cell_var_voltage,
  wireSpeed: m.cell_var_wireSpeed,
  travel: m.cell_var_travel,
  heatInput: m.cell_var_heatInput,
  preheat: m.cell_var_preheat,
  interpass: m.cell_var_interpass,
};

export function variableWord(variable: string): string {
  return variables[variable]?.() ?? variable;
}

/** Limits in words, in the unit of the shop or of the dial; `stored` is the unit that they are stored in. */
export function rangeWords(
  min: number | null,
  max: number | null,
  stored: string | null,
  dial?: string,
): string {
  const unit = stored ?? '';
  const words = (value: number) => shopUnits.words(value, unit, { dial });
  if (min !== null && max !== null)
    return m.cell_range_between({ min: shopUnits.number(min, unit, { dial }), max: words(max) });
  if (min !== null) return m.cell_range_from({ min: words(min) });
  if (max !== null) return m.cell_range_to({ max: words(max) });
  return m.cell_range_open();
}

const points: Record<StartPoint, () => string> = {
  part: m.start_part,
  consumables: m.start_consumables,
  fixture: m.start_fixture,
  settings: m.start_settings,
  safety: m.start_safety,
};

/** A point of the start of a run. */
export function pointWord(point: StartPoint): string {
  return points[point]();
}

type FitResult = 'inside' | 'outside' | 'cannotSay';

const results: Record<FitResult, () => string> = {
  inside: m.cell_fit_inside,
  outside: m.cell_fit_outside,
  cannotSay: m.cell_fit_cannotSay,
};

export function fitWord(result: FitResult): string {
  return results[result]();
}

export const fitTone = {
  inside: 'good',
  outside: 'stop',
  cannotSay: 'unknown',
} as const satisfies Record<FitResult, string>;

type Strength = 'pass' | 'tell' | 'gate' | 'refuse';

const strengths: Record<Strength, () => string> = {
  pass: m.cell_strength_pass,
  tell: m.cell_strength_tell,
  gate: m.cell_strength_gate,
  refuse: m.cell_strength_refuse,
};

export function strengthWord(strength: Strength): string {
  return strengths[strength]();
}

export const strengthTone = {
  pass: 'good',
  tell: 'tell',
  gate: 'stop',
  refuse: 'stop',
} as const satisfies Record<Strength, string>;
