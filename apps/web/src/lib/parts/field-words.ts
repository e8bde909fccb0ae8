import { m } from '$lib/paraglide/messages.js';
import { shopUnits } from '$lib/units/shop-units.svelte.js';

const weldWords: Readonly<Record<string, (inputs: { unit: string }) => string>> = {
  number: m.weld_number,
  jointType: m.weld_joint,
  throatMm: m.weld_throat,
  legMm: m.weld_leg,
  grooveDepthMm: m.weld_groove,
  holeWidthMm: m.weld_hole,
  lengthMm: m.weld_length,
  count: m.weld_count,
  thicknessAMm: m.weld_thickness_a,
  thicknessBMm: m.weld_thickness_b,
  materialA: m.weld_material_a,
  materialB: m.weld_material_b,
  materialGroupA: m.weld_group_a,
  materialGroupB: m.weld_group_b,
  position: m.weld_position,
  process: m.weld_process,
  stepNumber: m.weld_step,
  qualityLevel: m.weld_quality,
  sizeUnderMm: m.weld_size_under,
  sizeOverMm: m.weld_size_over,
  notes: m.weld_notes,
};

const stepWords: Readonly<Record<string, () => string>> = {
  number: m.step_number,
  name: m.step_name,
  cellKind: m.step_cell_kind,
  wpsNumber: m.step_wps,
  setUpMin: m.step_set_up,
  firstPieceMin: m.step_first_piece,
  unitMin: m.step_unit,
  startStopS: m.step_start_stop,
  airMovesS: m.step_air_moves,
  cleaningS: m.step_cleaning,
  loadS: m.step_load,
  massKg: m.step_mass,
  reachMm: m.step_reach,
  instructions: m.step_instructions,
  holdPoint: m.step_hold_point,
  witnessMin: m.step_witness,
};

const fieldWords: Readonly<Record<string, () => string>> = {
  number: m.part_number,
  name: m.part_name,
  customerId: m.order_customer,
  notes: m.part_notes,
  outsideWork: m.outside_work,
  outsideDays: m.outside_days,
  alias: m.part_alias,
  label: m.part_revision_label,
  drawingNumber: m.part_drawing,
  drawingPrint: m.part_drawing_print,
  changeNote: m.part_change_note,
  steps: m.order_steps,
  welds: m.part_welds,
};

/** The name of a column with the unit that its lengths stand in. */
export function weldWord(key: string, unit = shopUnits.unit('mm')): string {
  return weldWords[key]?.({ unit }) ?? key;
}

export function stepWord(key: string): string {
  return stepWords[key]?.() ?? key;
}

/** The label of a refused field; welds and steps are counted from 1. */
export function fieldLabel(field: string): string {
  const [list = '', at, key] = field.replace(/^body\./, '').split('.');
  if (key === undefined) return fieldWords[list]?.() ?? list;
  const row = Number(at) + 1;
  if (list === 'welds') return m.part_weld_field({ row, field: weldWord(key) });
  return m.part_step_field({ row, field: stepWord(key) });
}
