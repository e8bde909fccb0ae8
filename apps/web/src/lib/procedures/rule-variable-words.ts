import { variableWord } from '$lib/cell/words.js';
import { m } from '$lib/paraglide/messages.js';

/** Variables of range rules that no procedure form has a field for. */
const words: Readonly<Record<string, () => string>> = {
  transfer: m.wpqr_transfer,
  product: m.wpqr_product,
  depositedThickness: m.wpqr_deposited,
  diameter: m.wpqr_diameter,
  diameterRotating: m.rule_var_diameter_rotating,
  branchAngle: m.wpqr_branch_angle,
  runs: m.wpqr_runs,
  backing: m.wpqr_backing,
  weldDetail: m.rule_var_weld_detail,
  filletPosition: m.rule_var_fillet_position,
  fillerGroup: m.wpqr_filler_group,
  fillerType: m.rule_var_filler_type,
  co2: m.wpqr_co2,
  gasFlow: m.wpqr_gas_flow,
  currentType: m.wpqr_current_type,
  unit: m.rule_var_unit,
  jointSensor: m.rule_var_joint_sensor,
  arcSensor: m.rule_var_arc_sensor,
  visualControl: m.rule_var_visual_control,
  arcLengthControl: m.rule_var_arc_length_control,
  jointTracking: m.rule_var_joint_tracking,
};

export function ruleVariableWord(variable: string): string {
  return words[variable]?.() ?? variableWord(variable);
}
