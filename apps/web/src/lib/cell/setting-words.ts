import type { Cell, RunChange, SettingVariable } from '@tackboard/contract';
import { plainNumber } from '$lib/format/number.js';
import { m } from '$lib/paraglide/messages.js';
import { travelOnDial } from './travel.js';

const labels: Readonly<Record<RunChange['variable'], () => string>> = {
  currentA: m.cell_current,
  voltageV: m.cell_voltage,
  wireSpeedMMin: m.cell_wire_speed,
  travelMmMin: m.cell_travel,
  gasFlowLMin: m.gear_gas_flow,
  contactTipMm: m.gear_contact,
  preheatC: m.cell_preheat,
  programRevision: m.gear_program_revision,
};

const units: Readonly<Record<SettingVariable, string>> = {
  ...{ currentA: 'A', voltageV: 'V', wireSpeedMMin: 'm/min', travelMmMin: 'mm/min' },
  ...{ gasFlowLMin: 'l/min', contactTipMm: 'mm', preheatC: '°C' },
};

export function settingLabel(variable: RunChange['variable']): string {
  return labels[variable]();
}

/** The unit on the dial of this cell. */
export function settingUnit(
  variable: SettingVariable,
  { travelUnit }: Pick<Cell, 'travelUnit'>,
): string {
  return variable === 'travelMmMin' ? travelUnit : units[variable];
}

/** `Wire speed: 9 to 9.6 m/min, after part 3, O03: weld too small`. */
export function changeWords(change: RunChange, cell: Pick<Cell, 'travelUnit'>): string {
  const { variable, from, to, afterPart: part, personCode: who, why } = change;
  const unit = variable === 'programRevision' ? '' : ` ${settingUnit(variable, cell)}`;
  const onDial = (value: string) =>
    variable === 'travelMmMin'
      ? plainNumber(travelOnDial(Number(value), cell.travelUnit), 1)
      : value;
  return m.gear_change_line({
    what: settingLabel(variable),
    from: from === null ? m.gear_from_nothing() : onDial(from),
    to: `${onDial(to)}${unit}`,
    ...{ part, who, why },
  });
}
