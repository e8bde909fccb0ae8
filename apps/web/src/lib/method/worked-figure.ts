import { sources, type Calculation, type Warning } from '@tackboard/calc';
import { plainNumber } from '../format/number.js';
import { m } from '../paraglide/messages.js';
import { warningWords } from './warning-words.js';

/** A calculated figure as its reader sees it: what went in, the formula with it put in, and what it rests on. */
export interface WorkedFigure {
  readonly name: string;
  readonly value: string;
  readonly formula: string;
  readonly inputs: readonly { readonly label: string; readonly value: string }[];
  readonly sources: readonly string[];
  readonly warnings: readonly string[];
  /** The page that explains the method. */
  readonly page: string;
}

export type Answered<C> = Extract<C, { ok: true }>;

const inputNames: Readonly<Record<string, readonly [label: () => string, unit: string]>> = {
  throatMm: [m.method_in_throat, 'mm'],
  legMm: [m.method_in_leg, 'mm'],
  secondLegMm: [m.method_in_second_leg, 'mm'],
  widthMm: [m.method_in_width, 'mm'],
  areaMm2: [m.method_in_area, 'mm²'],
  lengthMm: [m.method_in_length, 'mm'],
  densityKgM3: [m.method_in_density, 'kg/m³'],
  travelMmMin: [m.method_in_travel, 'mm/min'],
  wireDiameterMm: [m.method_in_wire_diameter, 'mm'],
  wireSpeedMMin: [m.method_in_wire_speed, 'm/min'],
  efficiency: [m.method_in_efficiency, ''],
  currentA: [m.method_in_current, 'A'],
  voltageV: [m.method_in_voltage, 'V'],
};

const unitSigns: Readonly<Record<string, string>> = { mm2: 'mm²', 'kg/m3': 'kg/m³' };

function amount(value: number, unit: string): string {
  return m.method_value({ value: plainNumber(value), unit: unitSigns[unit] ?? unit }).trim();
}

/** Title, edition and clause of a work, as far as it has them. */
function sourceWords(id: keyof typeof sources): string {
  const { title, edition, clause } = { clause: null, ...sources[id] };
  const place = [edition, clause].filter((part) => part !== null).join(', ');
  return place === '' ? title : m.method_source_clause({ title, place });
}

interface Explained {
  name: string;
  page: string;
  formula: string;
}

/** A result with the words of its method. */
export function workedFigure(
  { value, unit, inputs, ...result }: Answered<Calculation<object>>,
  { name, page, formula }: Explained,
): WorkedFigure {
  return {
    ...{ name, page, formula },
    value: amount(value, unit),
    inputs: Object.entries(inputs).flatMap(([key, given]) => {
      const [label, inputUnit] = inputNames[key] ?? [];
      return label === undefined || inputUnit === undefined || typeof given !== 'number'
        ? []
        : [{ label: label(), value: amount(given, inputUnit) }];
    }),
    sources: result.sources.map(sourceWords),
    warnings: result.warnings.map((warning: Warning) => warningWords(warning)),
  };
}
