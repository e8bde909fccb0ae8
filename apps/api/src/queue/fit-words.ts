import type { FitLine as Judged, FitVariable } from '@tackboard/calc';

const words: Readonly<Record<FitVariable, string>> = {
  process: 'process',
  mechanisation: 'mechanisation',
  materialGroup: 'material group',
  yield: 'yield strength',
  thickness: 'thickness',
  jointType: 'joint',
  throat: 'throat',
  position: 'position',
  wireDiameter: 'wire diameter',
  filler: 'filler',
  gas: 'gas',
  current: 'current',
  voltage: 'voltage',
  wireSpeed: 'wire speed',
  travel: 'travel',
  heatInput: 'heat input',
  preheat: 'preheat',
  interpass: 'interpass temperature',
};

export function fitVariableWord(variable: FitVariable): string {
  return words[variable];
}

/** Every variable of a fit, in the order in which they are told. */
export const fitVariables = Object.keys(words) as readonly FitVariable[];

/** Three decimals show why 0.951 is above 0.95; compared is always the unrounded value. */
export function numberWords(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

/** One line of a fit as a person reads it: "travel 300 mm/min is below 450". */
export function fitWords(line: Judged): string {
  const word = words[line.variable];
  const unit = line.unit === null ? '' : ` ${line.unit === 'degC' ? '°C' : line.unit}`;
  const given = typeof line.given === 'number' ? `${numberWords(line.given)}${unit}` : line.given;
  const limit = (value: number | null) => (value === null ? '' : numberWords(value));
  switch (line.reason) {
    case 'belowMin':
    case 'tooCold':
      return `${word} ${given} is below ${limit(line.min)}`;
    case 'aboveMax':
    case 'tooHot':
      return `${word} ${given} is above ${limit(line.max)}`;
    case 'notListed':
      return `${word} ${given} is not among ${(line.allowed ?? []).join(', ')}`;
    case 'subGroupMissing':
      return `${word} ${given} does not say its sub-group; allowed is ${(line.allowed ?? []).join(', ')}`;
    case 'pairMissing':
      return `${word} ${given}: ${(line.allowed ?? []).join(', ')} does not say which groups are joined to which; the procedure has to name the pairs, such as 8-1`;
    case 'valueMissing':
      return `${word}: nothing is given${allowedWords(line, unit)}`;
    case 'rangeMissing':
      return `${word}: the procedure states no range`;
    case 'factorUnknown':
      return `${word}: no factor k is known for this process`;
    case 'notDemanded':
      return `${word}: none is demanded`;
    case 'inRange':
    case 'listed':
      return `${word} ${given} is inside`;
  }
}

function allowedWords({ min, max, allowed }: Judged, unit: string): string {
  if (allowed !== null) return allowed.length === 0 ? '' : `, allowed is ${allowed.join(', ')}`;
  if (min !== null && max !== null) {
    return `, allowed is ${numberWords(min)} to ${numberWords(max)}${unit}`;
  }
  if (min !== null) return `, at least ${numberWords(min)}${unit} is needed`;
  return max === null ? '' : `, at most ${numberWords(max)}${unit} is allowed`;
}
