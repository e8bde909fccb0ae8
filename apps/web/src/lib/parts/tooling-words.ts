import { m } from '$lib/paraglide/messages.js';

const fixtureWords: Readonly<Record<string, () => string>> = {
  code: m.fixture_code,
  place: m.fixture_place,
  condition: m.fixture_condition,
  lastCheckOn: m.fixture_checked,
  notes: m.part_notes,
};

export function fixtureLabel(field: string): string {
  const name = field.replace(/^body\./, '');
  return fixtureWords[name]?.() ?? name;
}

const programWords: Readonly<Record<string, () => string>> = {
  name: m.program_name,
  revision: m.program_revision,
  cellId: m.program_cell,
  author: m.program_author,
  writtenOn: m.program_written,
  backupPlace: m.program_backup,
  notes: m.part_notes,
};

export function programLabel(field: string): string {
  const name = field.replace(/^body\./, '');
  return programWords[name]?.() ?? name;
}

const setUpWords: Readonly<Record<string, () => string>> = {
  cellId: m.order_made_cell,
  wireSpeedMMin: m.cell_wire_speed,
  voltageV: m.cell_voltage,
  currentA: m.cell_current,
  travelMmMin: m.cell_travel,
  gasFlowLMin: m.cell_gas_flow,
  contactTipMm: m.setup_contact_tip,
  preheatC: m.setup_preheat,
  wireItemId: m.order_topic_wire,
  gasItemId: m.order_topic_gas,
  torch: m.setup_torch,
  programId: m.order_topic_program,
  fixtureId: m.order_topic_fixture,
  watchOuts: m.setup_watch_outs_label,
};

export function setUpLabel(field: string): string {
  const [name = ''] = field.replace(/^body\./, '').split('.');
  return setUpWords[name]?.() ?? name;
}
