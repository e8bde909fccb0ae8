import {
  fitCertificate,
  personPolicy,
  type PersonCertificate,
  type PersonFacts as CalcFacts,
  type PersonLine,
  type PersonVariable,
  type PolicyTable,
  type PersonWeld,
  type Strength,
} from '@tackboard/calc';
import type { Weld } from '@tackboard/contract';
import { certificateDates } from '../people/certificate-dates.js';
import type { CellFacts, CertificateFacts } from './facts.js';

/** Materials and groove are left out where a list of welds does not carry them. */
export type WeldToMake = Pick<
  Weld,
  'number' | 'process' | 'jointType' | 'position' | 'thicknessAMm' | 'thicknessBMm'
> &
  Partial<Pick<Weld, 'materialGroupA' | 'materialGroupB' | 'grooveDepthMm'>>;

export interface PersonQuestion {
  readonly cell: Pick<CellFacts, 'id' | 'code' | 'kind'>;
  /** The code named on the procedure; null or left out where there is no procedure. */
  readonly code?: string | null;
  readonly coded: boolean;
  readonly today: string;
  readonly policy: PolicyTable;
}

export interface JudgedLine {
  readonly line: PersonLine;
  readonly strength: Strength;
}

/** What a step without a weld list can still be judged by. */
const aboutNoWeld: ReadonlySet<PersonVariable> = new Set([
  ...([
    'certificate',
    'mechanisation',
    'validity',
    'confirmation',
    'unit',
    'functionTest',
  ] as const),
]);

/** Where the weld list, not the certificate, says too little, nothing is held against the person. */
const notAsked: ReadonlySet<PersonVariable> = new Set(['diameter', 'materialGroup']);

/** One certificate against one weld, or against the cell and the day alone; a line per variable with what it does. */
export function judgeCertificate(
  certificate: CertificateFacts,
  weld: WeldToMake | null,
  question: PersonQuestion,
): JudgedLine[] {
  const printed = printedOf(certificate, question);
  const answer = fitCertificate(printed, {
    weld: weldOf(weld, certificate, question),
    cell: {
      mechanisation: question.cell.kind === 'robot' ? 'fullyMechanised' : 'partlyMechanised',
      unit: question.cell.code,
      jointSensor: null,
      arcSensor: null,
    },
    role: question.cell.kind === 'robot' ? 'adjusts' : 'welds',
    day: question.today,
  } satisfies CalcFacts);
  return answer.lines
    .filter(({ variable }) => weld !== null || aboutNoWeld.has(variable))
    .map((line) => ({ line, strength: strengthOf(line, question) }));
}

function strengthOf(
  { variable, result, reason }: PersonLine,
  { coded, policy: table }: PersonQuestion,
): Strength {
  const silentList = reason === 'valueMissing' && notAsked.has(variable);
  return silentList ? 'tell' : personPolicy({ variable, result, coded, table });
}

function printedOf(certificate: CertificateFacts, { cell }: PersonQuestion): PersonCertificate {
  const { thicknessMinMm: min, thicknessMaxMm: max, cellId, confirmedOn } = certificate;
  const dates = certificateDates({
    ...certificate,
    confirmedOn: confirmedOn === null ? [] : [confirmedOn],
  });
  return {
    number: certificate.number,
    kind: certificate.kind,
    code: certificate.code,
    processes: [certificate.process],
    transfers: [],
    jointTypes: certificate.jointTypes,
    positions: certificate.positions,
    filletPositions: null,
    thicknessMm: { min, max },
    diameterMm: null,
    materialGroups: certificate.materialGroups,
    fillerGroups: certificate.fillerGroups,
    unit: cellId === null ? null : cellId === cell.id ? cell.code : 'another cell',
    functionTestOn: certificate.functionTestOn,
    runs: [],
    jointSensor: null,
    arcSensor: null,
    testedOn: certificate.testedOn,
    route: dates.route,
    validUntil: dates.validUntil,
    confirmedUntil: dates.confirmedUntil,
    revokedOn: certificate.revokedOn,
  };
}

/** Work without a procedure is under no code: the certificate is read by its own. A code nobody knows is a question. */
function weldOf(
  weld: WeldToMake | null,
  certificate: CertificateFacts,
  question: PersonQuestion,
): PersonWeld {
  return {
    code: question.code ?? certificate.code,
    process: weld?.process ?? null,
    transfer: null,
    jointType: weld?.jointType ?? null,
    position: weld?.position ?? null,
    thicknessesMm: weld === null ? [] : [weld.thicknessAMm, weld.thicknessBMm],
    depositedMm: weld === null ? null : countedMm(weld, certificate),
    product: null,
    diameterMm: null,
    materialGroups: [weld?.materialGroupA, weld?.materialGroupB].filter(
      (group) => group !== undefined,
    ),
    fillerGroup: null,
    runs: null,
  };
}

/**
 * What counts as thickness besides fillets: of a butt weld the groove, or the thinner part when it is welded through;
 * of lap, corner and plug welds every part, so that the one outside speaks.
 */
function countedMm(weld: WeldToMake, { thicknessMinMm, thicknessMaxMm }: CertificateFacts): number {
  const parts = [weld.thicknessAMm, weld.thicknessBMm];
  if (weld.jointType === 'butt') return weld.grooveDepthMm ?? Math.min(...parts);
  const isOutside = (mm: number) =>
    mm < (thicknessMinMm ?? -Infinity) || mm > (thicknessMaxMm ?? Infinity);
  return parts.find(isOutside) ?? weld.thicknessAMm;
}
