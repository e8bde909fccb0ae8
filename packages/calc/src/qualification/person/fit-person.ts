import { worstResult, type FitResult } from '../answer.js';
import { codeIdOf, familyNamed, familyOf } from '../codes/code-names.js';
import { confirmationLine, plainLine, validityLine } from './dates.js';
import type {
  PersonAnswer,
  PersonCell,
  PersonCertificate,
  PersonFacts,
  PersonLine,
  PersonReason,
  PersonVariable,
  PersonWeld,
} from './facts.js';
import { judges, type Judge, type Judged, type Question } from './ranges.js';
import { clausesFor, isPositionAsked } from './variables.js';

const byHand: ReadonlySet<string> = new Set(['manual', 'partlyMechanised']);
const byMachine: ReadonlySet<string> = new Set(['fullyMechanised', 'automatic']);

/** A certificate for welding by hand never counts at a machine, nor an operator's at a booth. */
function mechanisationLine(
  kind: PersonCertificate['kind'],
  { mechanisation }: PersonCell,
  clause: string | null,
): PersonLine {
  const line = (result: FitResult, reason: PersonReason) =>
    plainLine({ variable: 'mechanisation', given: mechanisation, clause }, { result, reason });
  const isByHand = byHand.has(mechanisation ?? '');
  if (!isByHand && !byMachine.has(mechanisation ?? '')) return line('cannotSay', 'valueMissing');
  if (isByHand === (kind === 'welder')) return line('inside', 'listed');
  return line('outside', kind === 'welder' ? 'manualCertificate' : 'operatorCertificate');
}

/** Ranges do not pass from one code to another: the certificate is to be of the family the job names. */
function codeLine(certificate: PersonCertificate, weld: PersonWeld): PersonLine {
  const line = (result: FitResult, reason: PersonReason) =>
    plainLine({ variable: 'code', given: weld.code, clause: null }, { result, reason });
  const code = codeIdOf(certificate.code);
  const wanted = familyNamed(weld.code);
  if (wanted === null) return line('cannotSay', 'valueMissing');
  if (code === null) return line('cannotSay', 'rulesMissing');
  if (familyOf(code) !== wanted) return line('outside', 'otherCode');
  return clausesFor(certificate.kind, code) === null
    ? line('cannotSay', 'rulesMissing')
    : line('inside', 'listed');
}

const judged = Object.entries(judges) as [PersonVariable, Judge][];

function rangedLines(
  question: Question,
  clauseOf: (variable: PersonVariable) => string | null,
): PersonLine[] {
  const lines: PersonLine[] = [];
  for (const [variable, judge] of judged) {
    const clause = clauseOf(variable);
    if (clause !== null) lines.push(withClause(judge(question), clause));
  }
  return lines;
}

/** Written out, as a copy of a spread object takes several times as long. */
function withClause(line: Judged, clause: string): PersonLine {
  const { variable, result, given, unit, min, max, allowed, margin, reason } = line;
  return { variable, result, given, unit, min, max, allowed, margin, reason, clause };
}

/**
 * One certificate against a weld at a cell on a day: one line per variable of its code. The ranges are those printed
 * on it. Judged for the person alone; the procedure has an answer of its own.
 */
export function fitCertificate(certificate: PersonCertificate, facts: PersonFacts): PersonAnswer {
  const { weld, cell, day } = facts;
  const code = codeIdOf(certificate.code);
  const clauses = (code === null ? null : clausesFor(certificate.kind, code)) ?? {};
  const asksPosition = isPositionAsked(certificate.kind, cell.mechanisation);
  const clauseOf = (variable: PersonVariable) =>
    variable === 'position' && !asksPosition ? null : (clauses[variable] ?? null);
  const question = code === null ? null : { certificate, code, weld, cell, day };
  const ranged = question === null ? [] : rangedLines(question, clauseOf);
  const lines = [
    codeLine(certificate, weld),
    mechanisationLine(certificate.kind, cell, clauseOf('mechanisation')),
    validityLine(certificate, { day, clause: clauseOf('validity') }),
    confirmationLine(certificate, { day, clause: clauseOf('confirmation') }),
    ...ranged,
  ];
  return {
    result: worstResult(lines.map(({ result }) => result)),
    needed: true,
    certificate: certificate.number,
    lines,
  };
}

function alone(line: PersonLine, needed: boolean): PersonAnswer {
  return { result: line.result, needed, certificate: null, lines: [line] };
}

const order: readonly FitResult[] = ['inside', 'cannotSay', 'outside'];

/** Fewer lines outside, then fewer that cannot be told: how far a certificate is from covering the weld. */
function farness({ result, lines }: PersonAnswer): number {
  const outside = lines.filter((line) => line.result === 'outside').length;
  const unsure = lines.filter((line) => line.result === 'cannotSay').length;
  return order.indexOf(result) * 10_000 + outside * 100 + unsure;
}

/**
 * May this person make this weld at this cell on this day? One certificate has to hold all of it; the answer is that
 * of the nearest one. Who only loads and unloads needs none; who adjusts anything does.
 */
export function fitPerson(
  certificates: readonly PersonCertificate[],
  facts: PersonFacts,
): PersonAnswer {
  const at = { variable: 'role', given: facts.role, clause: null } as const;
  if (facts.role === 'loads') {
    return alone(plainLine(at, { result: 'inside', reason: 'notNeeded' }), false);
  }
  const answers = certificates
    .map((certificate) => fitCertificate(certificate, facts))
    .toSorted((a, b) => farness(a) - farness(b));
  const [nearest] = answers;
  const missing = plainLine(
    { variable: 'certificate', given: null, clause: null },
    { result: 'outside', reason: 'noCertificate' },
  );
  const answer = nearest ?? alone(missing, true);
  if (facts.role !== null) return answer;
  const lines = [plainLine(at, { result: 'cannotSay', reason: 'valueMissing' }), ...answer.lines];
  return { ...answer, lines, result: worstResult(lines.map(({ result }) => result)) };
}
