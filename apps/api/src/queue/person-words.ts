import type { PersonLine, PersonVariable } from '@tackboard/calc';
import type { CertificateFacts } from './facts.js';
import { numberWords } from './fit-words.js';

const words: Readonly<Record<PersonVariable, string>> = {
  role: 'what the person does',
  certificate: 'certificate',
  code: 'code',
  mechanisation: 'mechanisation',
  validity: 'end date',
  confirmation: 'confirmation',
  process: 'process',
  transfer: 'transfer',
  jointType: 'joint',
  position: 'position',
  thickness: 'thickness',
  diameter: 'pipe or plate',
  materialGroup: 'material group',
  fillerGroup: 'filler group',
  unit: 'welding unit',
  functionTest: 'test of knowledge of the unit',
  runs: 'runs',
  jointSensor: 'joint sensor',
  arcSensor: 'arc sensor',
};

export function personVariableWord(variable: PersonVariable): string {
  return words[variable];
}

/** Every variable of a person's fit. */
export const personVariables = Object.keys(words) as readonly PersonVariable[];

export function isDateLine(variable: PersonVariable): boolean {
  return variable === 'validity' || variable === 'confirmation';
}

/** Every range that does not hold, with the certificate and the clause it is judged by. */
export function faultWords(
  lines: readonly PersonLine[],
  { number, code }: Pick<CertificateFacts, 'number' | 'code'>,
): string {
  const clauses = [...new Set(lines.flatMap(({ clause }) => clause ?? []))];
  const by = clauses.length === 0 ? '' : ` (${code}, ${clauses.join(', ')})`;
  return `${lines.map((line) => faultOf(line, code)).join(' and ')} of certificate ${number}${by}`;
}

function faultOf(line: PersonLine, code: string): string {
  const word = words[line.variable];
  const unit = line.unit === null ? '' : ` ${line.unit}`;
  const given = typeof line.given === 'number' ? `${numberWords(line.given)}${unit}` : line.given;
  switch (line.reason) {
    case 'belowMin':
    case 'aboveMax':
      return `${word} ${given} is outside ${rangeWords(line, unit)}`;
    case 'subGroupMissing':
      return `${word} ${given} does not say its sub-group; printed is ${line.allowed?.join(', ') ?? ''}`;
    case 'notListed':
      return `${word} ${given} is outside ${line.allowed?.join(', ') || 'the empty list'}`;
    case 'otherCode':
      return `the work is under ${given}, another code than the ${code}`;
    case 'rulesMissing':
      return `nothing can be told by the code ${code}`;
    case 'manualCertificate':
      return 'welding by hand, not at a robot, is the range';
    case 'operatorCertificate':
      return 'work at a robot, not by hand, is the range';
    case 'otherStandard':
      return `${word} ${given} is for another standard than the ${code}`;
    default:
      return `nothing can be told about ${word}, which is missing on the record`;
  }
}

function rangeWords({ min, max }: PersonLine, unit: string): string {
  if (max === null) return `${numberWords(min ?? 0)}${unit} and more`;
  return `${numberWords(min ?? 0)} to ${numberWords(max)}${unit}`;
}

/** What stands on no certificate of this shop: shown, and held against nobody. */
const seldomOnFile: ReadonlySet<PersonVariable> = new Set([
  ...(['transfer', 'runs', 'jointSensor', 'arcSensor', 'diameter'] as const),
]);

/** What cannot be told although it may be printed on the certificate; null when nothing is left. */
export function untoldWords(variables: readonly PersonVariable[]): string | null {
  const left = variables.filter((variable) => !seldomOnFile.has(variable));
  return left.length === 0
    ? null
    : `Cannot be told from what is on file: ${left.map((each) => words[each]).join(', ')}.`;
}
