import { settingQuestions, type Question, type TypedIn } from '@tackboard/calc';
import { m } from '../paraglide/messages.js';

const reasons = {
  voltsAndAmpsSwapped: m.units_ask_swapped_arc,
  voltageOffTheLine: m.units_ask_line_off,
  travelTenTimesHigh: m.units_ask_ten_times,
  travelInMillimetres: m.units_ask_millimetres,
  travelInCentimetres: m.units_ask_centimetres,
  travelInInches: m.units_ask_inches,
  travelInMetres: m.units_ask_metres,
  wireSpeedInInches: m.units_ask_inches,
  wireSpeedInMillimetres: m.units_ask_millimetres,
  wireSpeedInMetres: m.units_ask_metres,
  wireDiameterInInches: m.units_ask_inches,
  wireDiameterInMillimetres: m.units_ask_plain_millimetres,
  wireDiameterTenTimesHigh: m.units_ask_ten_times,
  gasFlowInCubicFeet: m.units_ask_cubic_feet,
  gasFlowInLitres: m.units_ask_litres,
  preheatInFahrenheit: m.units_ask_fahrenheit,
  throatAndLegSwapped: m.units_ask_swapped_size,
  filletLargeForPlate: m.units_ask_large_fillet,
} as const satisfies Record<Question['code'], () => string>;

type Settings = Parameters<typeof settingQuestions>[0];

interface Names {
  /** The name of a field, as the form has it. */
  readonly labelOf: (key: string) => string;
  /** An amount in words, in the unit of its field. */
  readonly amountOf: (key: string, value: number) => string;
  /** The units of the fields, where these are not the stored ones. */
  readonly typedIn?: TypedIn;
}

/** The questions about settings as sentences: they ask, and nothing that was typed is changed by them. */
export function questionLines(
  settings: Settings,
  { labelOf, amountOf, typedIn = {} }: Names,
): string[] {
  const words = (values: Question['given']) =>
    Object.entries(values)
      .map(([key, value]) => `${labelOf(key)} ${amountOf(key, value)}`)
      .join(', ');
  return settingQuestions(settings, typedIn).map(({ code, given, perhaps }) => {
    const line = { given: words(given), why: reasons[code]() };
    const meant = words(perhaps);
    return meant === '' ? m.units_ask_alone(line) : m.units_ask_line({ ...line, perhaps: meant });
  });
}
