import { convertUnit, settingQuestions, type Question, type UnitName } from '@tackboard/calc';
import { plainNumber } from '../format/number.js';
import { m } from '../paraglide/messages.js';

/** Units in which a dialled value is shown beside the one it is typed in. */
const otherUnits: Readonly<Record<string, { typed: UnitName; shown: readonly UnitName[] }>> = {
  wireSpeedMMin: { typed: 'm/min', shown: ['in/min'] },
  travelMmMin: { typed: 'mm/min', shown: ['cm/min', 'in/min'] },
  gasFlowLMin: { typed: 'l/min', shown: ['cfh'] },
  contactTipMm: { typed: 'mm', shown: ['in'] },
  preheatC: { typed: 'C', shown: ['F'] },
};

const unitSigns: Partial<Record<UnitName, string>> = { C: '°C', F: '°F' };

/** The same amount in other units, e.g. "= 52 cm/min = 20.5 in/min"; nothing for a value without one. */
export function unitEcho(key: string, value: number | null): string | undefined {
  const units = otherUnits[key];
  if (value === null || units === undefined) return undefined;
  const amounts = units.shown.flatMap((to) => {
    const amount = convertUnit({ value, from: units.typed, to });
    return amount.ok ? [`${plainNumber(amount.value, 1)} ${unitSigns[to] ?? to}`] : [];
  });
  return amounts.length === 0 ? undefined : m.units_echo({ amounts: amounts.join(' = ') });
}

const reasons = {
  voltsAndAmpsSwapped: m.units_ask_swapped_arc,
  voltageOffTheLine: m.units_ask_line_off,
  travelTenTimesHigh: m.units_ask_ten_times,
  travelInCentimetres: m.units_ask_centimetres,
  travelInInches: m.units_ask_inches,
  travelInMetres: m.units_ask_metres,
  wireSpeedInInches: m.units_ask_inches,
  wireSpeedInMillimetres: m.units_ask_millimetres,
  wireDiameterInInches: m.units_ask_inches,
  wireDiameterTenTimesHigh: m.units_ask_ten_times,
  gasFlowInCubicFeet: m.units_ask_cubic_feet,
  preheatInFahrenheit: m.units_ask_fahrenheit,
  throatAndLegSwapped: m.units_ask_swapped_size,
  filletLargeForPlate: m.units_ask_large_fillet,
} as const satisfies Record<Question['code'], () => string>;

type Settings = Parameters<typeof settingQuestions>[0];

/** The questions about settings as sentences. `labelOf` names a field and `unitOf` its unit, as the form does. */
export function questionLines(
  settings: Settings,
  labelOf: (key: string) => string,
  unitOf: (key: string) => string,
): string[] {
  const words = (values: Question['given']) =>
    Object.entries(values)
      .map(([key, value]) => `${labelOf(key)} ${plainNumber(value, 2)} ${unitOf(key)}`.trim())
      .join(', ');
  return settingQuestions(settings).map(({ code, given, perhaps }) => {
    const line = { given: words(given), why: reasons[code]() };
    const meant = words(perhaps);
    return meant === '' ? m.units_ask_alone(line) : m.units_ask_line({ ...line, perhaps: meant });
  });
}
