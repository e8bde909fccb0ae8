import type { Cell, RunChange, SettingVariable } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';
import { shopUnits } from '../units/shop-units.svelte.js';
import type { FieldUnit } from '../ui/units.js';

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

/** How the setting is typed and shown on the dial of this cell. */
export function settingUnit(
  variable: SettingVariable,
  { travelUnit }: Pick<Cell, 'travelUnit'>,
): FieldUnit {
  return shopUnits.fieldUnit(units[variable], travelUnit);
}

/** `Wire speed: 9 to 9.6 m/min, after part 3, O03: weld too small`. */
export function changeWords(change: RunChange, { travelUnit }: Pick<Cell, 'travelUnit'>): string {
  const { variable, from, to, afterPart: part, personCode: who, why } = change;
  const shape = { dial: travelUnit };
  const [shown, unit] =
    variable === 'programRevision'
      ? [(value: string) => value, '']
      : [
          (value: string) => shopUnits.number(Number(value), units[variable], shape),
          shopUnits.unit(units[variable], travelUnit),
        ];
  return m.gear_change_line({
    what: settingLabel(variable),
    from: from === null ? m.gear_from_nothing() : shown(from),
    to: `${shown(to)} ${unit}`.trim(),
    ...{ part, who, why },
  });
}
