import { isAluminium } from '../codes/iso-15614-1/materials.js';
import type { CodeId } from '../codes/code-names.js';
import { isShortCircuit, processLetters } from '../designations/processes.js';
import { judgeListed, judgeMaterialGroups, judgeNumber, judgeNumbers } from '../range.js';
import { plainLine } from './dates.js';
import type {
  PersonCell,
  PersonCertificate,
  PersonLine,
  PersonReason,
  PersonVariable,
  PersonWeld,
} from './facts.js';
import type { FitResult } from '../answer.js';
import type { DayText } from '../validity/dates.js';

export interface Question {
  certificate: PersonCertificate;
  code: CodeId;
  weld: PersonWeld;
  cell: PersonCell;
  day: DayText;
}

export type Judged = Omit<PersonLine, 'clause'>;
export type Judge = (question: Question) => Judged;

function bare(
  variable: PersonVariable,
  given: string | null,
  verdict: { result: FitResult; reason: PersonReason },
): Judged {
  return plainLine({ variable, given, clause: null }, verdict);
}

/** Transfer counts for gas-metal arc only. */
function transfer({ certificate, weld }: Question): Judged {
  const variable = 'transfer';
  if (weld.process !== null && processLetters(weld.process) !== 'GMAW') {
    const reason = processLetters(weld.process) === null ? 'valueMissing' : 'notAVariable';
    return bare(variable, weld.transfer, {
      result: reason === 'notAVariable' ? 'inside' : 'cannotSay',
      reason,
    });
  }
  const given = isShortCircuit(weld) === true ? 'D' : weld.transfer;
  return judgeListed({ variable, given, allowed: certificate.transfers });
}

/** Under AWS D1.1 the plates count, under the others the metal laid in a butt weld. */
function thickness({ certificate, weld, code }: Question): Judged {
  const at = { variable: 'thickness', unit: 'mm', range: certificate.thicknessMm } as const;
  if (weld.jointType === null) return judgeNumber({ ...at, given: null });
  if (code === 'ASME IX' && weld.jointType === 'fillet') {
    return bare('thickness', null, { result: 'inside', reason: 'notAVariable' });
  }
  return weld.jointType === 'fillet' || code === 'AWS D1.1'
    ? judgeNumbers(at, weld.thicknessesMm)
    : judgeNumber({ ...at, given: weld.depositedMm });
}

/** A certificate for pipe that has no upper limit was earned on more than 25 mm and holds plate too. */
function diameter({ certificate, weld, code }: Question): Judged {
  const { diameterMm: range } = certificate;
  const variable = 'diameter';
  if (weld.product === 'pipe') {
    return judgeNumber({ variable, unit: 'mm', given: weld.diameterMm, range });
  }
  if (weld.product === null)
    return bare(variable, null, { result: 'cannotSay', reason: 'valueMissing' });
  const holdsPlate = range === null || (code === 'ISO 9606-1' && range.max === null);
  return bare(
    variable,
    'plate',
    holdsPlate
      ? { result: 'inside', reason: 'notAVariable' }
      : { result: 'cannotSay', reason: 'rangeMissing' },
  );
}

/** ISO 9606-1 has no parent metal among its variables, but ends at steel. */
function materialGroup({ certificate, weld, code }: Question): Judged {
  const variable = 'materialGroup';
  if (code !== 'ISO 9606-1') {
    return judgeMaterialGroups(
      { variable, allowed: certificate.materialGroups },
      weld.materialGroups,
    );
  }
  const given = weld.materialGroups.join(' + ');
  if (weld.materialGroups.some(isAluminium)) {
    return bare(variable, given, { result: 'cannotSay', reason: 'otherStandard' });
  }
  const isSteel = (group: string) => /^([1-9]|1[01])(\.\d+)?$/.test(group.trim());
  const areSteel = weld.materialGroups.length > 0 && weld.materialGroups.every(isSteel);
  return bare(
    variable,
    given === '' ? null : given,
    areSteel
      ? { result: 'inside', reason: 'notAVariable' }
      : { result: 'cannotSay', reason: 'valueMissing' },
  );
}

function position({ certificate, weld }: Question): Judged {
  const { positions, filletPositions } = certificate;
  const allowed = weld.jointType === 'fillet' ? (filletPositions ?? positions) : positions;
  return judgeListed({ variable: 'position', given: weld.position, allowed });
}

const withOrWithout = (value: boolean | null) =>
  value === null ? null : value ? 'with' : 'without';

function sensor(variable: 'jointSensor' | 'arcSensor', { certificate, cell }: Question): Judged {
  const printed = withOrWithout(certificate[variable]);
  const given = withOrWithout(cell[variable]);
  return judgeListed({ variable, given, allowed: printed === null ? [] : [printed] });
}

/** The test of knowledge of the welding unit itself, without which no operator is qualified. */
function functionTest({ certificate, day }: Question): Judged {
  const { functionTestOn: given } = certificate;
  const variable = 'functionTest';
  if (given === null) return bare(variable, null, { result: 'cannotSay', reason: 'valueMissing' });
  return bare(
    variable,
    given,
    given <= day
      ? { result: 'inside', reason: 'listed' }
      : { result: 'outside', reason: 'beforeTest' },
  );
}

/** How each variable of a certificate is judged; which of them count is the code's matter. */
export const judges: Partial<Record<PersonVariable, Judge>> = {
  process: ({ certificate, weld }) =>
    judgeListed({ variable: 'process', given: weld.process, allowed: certificate.processes }),
  transfer,
  jointType: ({ certificate, weld }) =>
    judgeListed({ variable: 'jointType', given: weld.jointType, allowed: certificate.jointTypes }),
  position,
  thickness,
  diameter,
  materialGroup,
  fillerGroup: ({ certificate, weld }) =>
    judgeListed({
      variable: 'fillerGroup',
      given: weld.fillerGroup,
      allowed: certificate.fillerGroups,
    }),
  unit: ({ certificate, cell }) =>
    judgeListed({
      variable: 'unit',
      given: cell.unit,
      allowed: certificate.unit === null ? [] : [certificate.unit],
    }),
  functionTest,
  runs: ({ certificate, weld }) =>
    judgeListed({ variable: 'runs', given: weld.runs, allowed: certificate.runs }),
  jointSensor: (question) => sensor('jointSensor', question),
  arcSensor: (question) => sensor('arcSensor', question),
};
