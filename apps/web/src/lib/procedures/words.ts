import type { Wpqr, Wps } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';
import { detailLabel } from './wps-details.js';

const stateWords = {
  draft: m.wps_state_draft,
  approved: m.wps_state_approved,
  superseded: m.wps_state_superseded,
  withdrawn: m.wps_state_withdrawn,
} as const satisfies Record<Wps['state'], () => string>;

const stateTones = {
  draft: 'tell',
  approved: 'good',
  superseded: 'plain',
  withdrawn: 'stop',
} as const satisfies Record<Wps['state'], string>;

export function wpsMark(state: Wps['state']) {
  return { word: stateWords[state](), tone: stateTones[state] };
}

type Outcome = Wpqr['testResults'][number]['outcome'];

const outcomeWords = {
  passed: m.wpqr_passed,
  failed: m.wpqr_failed,
  notRequired: m.wpqr_not_required,
} as const satisfies Record<Outcome, () => string>;

const outcomeTones = {
  passed: 'good',
  failed: 'stop',
  notRequired: 'plain',
} as const satisfies Record<Outcome, string>;

export const outcomes: readonly Outcome[] = ['passed', 'failed', 'notRequired'];

export function outcomeMark(outcome: Outcome) {
  return { word: outcomeWords[outcome](), tone: outcomeTones[outcome] };
}

const fieldWords: Readonly<Record<string, () => string>> = {
  process: m.cell_var_process,
  mechanisation: m.cell_var_mechanisation,
  mechanisations: m.cell_var_mechanisation,
  materialGroups: m.cell_var_materialGroup,
  materialGroup: m.cell_var_materialGroup,
  jointTypes: m.cell_var_jointType,
  jointType: m.cell_var_jointType,
  positions: m.cell_var_position,
  position: m.cell_var_position,
  fillers: m.cell_var_filler,
  filler: m.cell_var_filler,
  gases: m.cell_var_gas,
  gas: m.cell_var_gas,
  yieldMPa: m.cell_var_yield,
  thicknessMm: m.cell_var_thickness,
  throatMm: m.cell_var_throat,
  wireDiameterMm: m.cell_var_wireDiameter,
  currentA: m.cell_var_current,
  voltageV: m.cell_var_voltage,
  wireSpeedMMin: m.cell_var_wireSpeed,
  travelMmMin: m.cell_var_travel,
  heatInputKjMm: m.cell_var_heatInput,
  preheatMinC: m.wps_preheat_min,
  interpassMaxC: m.wps_interpass_max,
  preheatC: m.cell_var_preheat,
  interpassC: m.cell_var_interpass,
  number: m.wps_number,
  title: m.wps_title,
  code: m.wps_code,
  edition: m.wpqr_edition,
  level: m.wpqr_level,
  testedOn: m.wpqr_tested_on,
  examiner: m.wpqr_examiner,
  transfer: m.wpqr_transfer,
  description: m.wps_joint_description,
  preparation: m.wps_joint_preparation,
  runs: m.wps_joint_runs,
  technique: m.wps_technique,
  wpqrIds: m.wps_records,
  changeNote: m.wps_change_note,
  reason: m.order_reason,
  material: m.wpqr_material,
  diameterMm: m.wpqr_diameter,
  backing: m.wpqr_backing,
  test: m.wpqr_test,
  product: m.wpqr_product,
  materialGroupB: m.wpqr_material_group_b,
  yieldBMPa: m.wpqr_yield_b,
  depositedMm: m.wpqr_deposited,
  maxPassMm: m.wpqr_max_pass,
  branchAngleDeg: m.wpqr_branch_angle,
  fillerGroup: m.wpqr_filler_group,
  currentType: m.wpqr_current_type,
  co2Pct: m.wpqr_co2,
  gasFlowLMin: m.wpqr_gas_flow,
  impactRequired: m.wpqr_impact_required,
  impactTested: m.wpqr_impact_tested,
  hardnessRequired: m.wpqr_hardness_required,
  backed: m.wpqr_backed,
  gouged: m.wpqr_gouged,
  squareGroove: m.wpqr_square_groove,
  note: m.wpqr_note,
};

/** The label of a variable or a refused field. */
export function fieldLabel(field: string): string {
  const [last = '', before = ''] = field
    .replace(/^body\./, '')
    .split('.')
    .reverse()
    .filter((part) => !/^\d+$/.test(part));
  if (before === 'details' && last !== 'groove')
    return detailLabel(last as Parameters<typeof detailLabel>[0]);
  if (before === 'groove' || before === 'preparation') return m.wps_groove_name();
  if (last === 'min') return m.wps_limit_from({ field: fieldLabel(before) });
  if (last === 'max') return m.wps_limit_to({ field: fieldLabel(before) });
  return fieldWords[last]?.() ?? last;
}
