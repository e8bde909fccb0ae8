import type { FitLine, FitReason, FitResult } from '../answer.js';
import type { Range } from '../range.js';
import type { DayText } from '../validity/dates.js';
import type { RenewalRoute } from '../validity/validity.js';

/** What the person does at the cell. Who only loads and unloads controls nothing and needs no qualification. */
export type CellRole = 'welds' | 'adjusts' | 'loads';

export type PersonVariable =
  | 'role'
  | 'certificate'
  | 'code'
  | 'mechanisation'
  | 'validity'
  | 'confirmation'
  | 'process'
  | 'transfer'
  | 'jointType'
  | 'position'
  | 'thickness'
  | 'diameter'
  | 'materialGroup'
  | 'fillerGroup'
  | 'unit'
  | 'functionTest'
  | 'runs'
  | 'jointSensor'
  | 'arcSensor';

export type PersonReason =
  | FitReason
  | 'notNeeded'
  | 'noCertificate'
  | 'otherCode'
  | 'rulesMissing'
  | 'otherStandard'
  | 'manualCertificate'
  | 'operatorCertificate'
  | 'notAVariable'
  | 'revoked'
  | 'beforeTest'
  | 'lapsed'
  | 'openEnded';

export interface PersonLine extends FitLine<PersonVariable, PersonReason> {
  clause: string | null;
}

export interface PersonAnswer {
  result: FitResult;
  /** False where the person needs no certificate for what they do. */
  needed: boolean;
  /** The certificate that was judged, by its number; null when none was. */
  certificate: string | null;
  lines: readonly PersonLine[];
}

/** A certificate with the ranges printed on it; an empty list or null is a variable on which it says nothing. */
export interface PersonCertificate {
  number: string;
  kind: 'welder' | 'operator' | 'setter';
  code: string;
  processes: readonly string[];
  transfers: readonly string[];
  jointTypes: readonly string[];
  positions: readonly string[];
  /** Fillet positions where they differ from those of butt welds; null where the certificate prints one list. */
  filletPositions: readonly string[] | null;
  /** Of a butt weld the metal laid, of a fillet the parts. */
  thicknessMm: Range | null;
  diameterMm: Range | null;
  materialGroups: readonly string[];
  fillerGroups: readonly string[];
  /** The cell an operator's or setter's certificate is bound to. */
  unit: string | null;
  functionTestOn: DayText | null;
  runs: readonly string[];
  jointSensor: boolean | null;
  arcSensor: boolean | null;
  testedOn: DayText;
  route: RenewalRoute | null;
  /** Last day before renewal; null where none is printed. */
  validUntil: DayText | null;
  /** Last day on which the latest confirmation holds; null when there is none. */
  confirmedUntil: DayText | null;
  revokedOn: DayText | null;
}

/** The weld as a person's qualification sees it; null where it is not known. */
export interface PersonWeld {
  /** The code family the job is welded under, as it is named on it. */
  code: string | null;
  process: string | null;
  transfer: string | null;
  jointType: string | null;
  position: string | null;
  thicknessesMm: readonly number[];
  /** Metal laid by this process in a butt weld. */
  depositedMm: number | null;
  product: 'plate' | 'pipe' | null;
  diameterMm: number | null;
  materialGroups: readonly string[];
  fillerGroup: string | null;
  runs: 'single' | 'multi' | null;
}

export interface PersonCell {
  mechanisation: string | null;
  unit: string | null;
  jointSensor: boolean | null;
  arcSensor: boolean | null;
}

export interface PersonFacts {
  weld: PersonWeld;
  cell: PersonCell;
  role: CellRole | null;
  day: DayText;
}
