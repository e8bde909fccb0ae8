import type { CodeId } from '../codes/code-names.js';
import type { PersonCertificate, PersonVariable } from './facts.js';

type Clauses = Partial<Record<PersonVariable, string>>;

/** The variables of each code with their clauses. A variable without a row is none of that code. */
const welderClauses: Partial<Record<CodeId, Clauses>> = {
  'ISO 9606-1': {
    ...{ code: '1', mechanisation: '1', validity: '9.3', confirmation: '9.2' },
    ...{ process: '5.2', transfer: '5.2', jointType: '5.4', position: '5.8', thickness: '5.7' },
    ...{ diameter: '5.3, 5.7', materialGroup: '1', fillerGroup: '5.5' },
  },
  'ASME IX': {
    ...{ code: 'QW-300', mechanisation: 'QW-300', validity: 'QW-322', confirmation: 'QW-322.1' },
    ...{ process: 'QW-350', transfer: 'QW-409.2', jointType: 'QW-452.6', position: 'QW-461.9' },
    ...{ thickness: 'QW-452.1(b)', diameter: 'QW-452.3', materialGroup: 'QW-423' },
    fillerGroup: 'QW-433',
  },
  'AWS D1.1': {
    ...{ code: '6.1', mechanisation: '6.1', validity: '6.2.3', confirmation: '6.2.3' },
    ...{ process: 'Table 6.12', jointType: 'Table 6.10', position: 'Table 6.10' },
    ...{ thickness: 'Table 6.11', diameter: 'Table 6.10' },
  },
};
const operatorClauses: Partial<Record<CodeId, Clauses>> = {
  'ISO 14732': {
    ...{ code: '1', mechanisation: '1', validity: '5', confirmation: '5', process: '4.2' },
    ...{ unit: '4.2', functionTest: '4, Annex A', runs: '4.2', jointSensor: '4.2' },
    ...{ arcSensor: '4.2', position: '4.2' },
  },
};

/** Where a machine does all of it, the operator's positions are no variable. ISO 14732, 4.2 (from memory). */
export function isPositionAsked(
  kind: PersonCertificate['kind'],
  mechanisation: string | null,
): boolean {
  return kind === 'welder' || mechanisation !== 'automatic';
}

/** The clauses a certificate is judged by, or null when there are no rules for its kind under its code. */
export function clausesFor(kind: PersonCertificate['kind'], code: CodeId): Clauses | null {
  return (kind === 'welder' ? welderClauses : operatorClauses)[code] ?? null;
}
