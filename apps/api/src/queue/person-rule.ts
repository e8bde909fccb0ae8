import { personPolicy, type PersonVariable } from '@tackboard/calc';
import type { ReadyLine } from '@tackboard/contract';
import type { CertificateFacts, PersonFacts } from './facts.js';
import { lapseWords } from './lapse-words.js';
import {
  judgeCertificate,
  type JudgedLine,
  type PersonQuestion,
  type WeldToMake,
} from './person-fit.js';
import { faultWords, isDateLine, untoldWords } from './person-words.js';

export interface PersonRuleFacts extends PersonQuestion {
  readonly person: PersonFacts;
  /** Of every person of the shop: who else could is named too. */
  readonly certificates: readonly CertificateFacts[];
  readonly welds: readonly WeldToMake[];
}

type Question = Omit<PersonRuleFacts, 'person'>;

/** One certificate with the lines that stop it, nearest to passing first. */
interface Judged {
  readonly certificate: CertificateFacts;
  readonly faults: readonly JudgedLine[];
  readonly untold: readonly PersonVariable[];
}

interface Obstacle {
  readonly strength: 'gate' | 'refuse';
  readonly words: string;
}

/**
 * May this person make these welds at this cell today? At a robot an operator's or setter's certificate for that
 * cell counts, at a booth a welder's certificate; each weld needs one certificate that holds all of it. What does
 * not fit is gated on uncoded parts and refused on coded ones: the shop's own rule.
 */
export function personLine(facts: PersonRuleFacts): Pick<ReadyLine, 'rule' | 'strength' | 'text'> {
  const { person, cell } = facts;
  const found = standingOf(facts, person.id);
  const rule = 'person';
  if (found.obstacle === null) {
    const untold = untoldWords(found.untold);
    const words = `${person.code} ${person.name} is qualified for this at ${cell.code}.`;
    return { rule, strength: 'pass', text: untold === null ? words : `${words} ${untold}` };
  }
  const { strength, words } = found.obstacle;
  return {
    rule,
    strength,
    text: `${person.code} ${person.name}: ${words}. ${othersWords(facts)}`,
  };
}

/** The people who are qualified for these welds at this cell today, by code. */
export function qualifiedPeople(facts: Omit<Question, 'coded'>): PersonFacts[] {
  const question = { ...facts, coded: false };
  const people = new Map(
    facts.certificates.map(({ personId, personCode, personName }) => [
      personId,
      { id: personId, code: personCode, name: personName },
    ]),
  );
  return [...people.values()]
    .filter(({ id }) => standingOf(question, id).obstacle === null)
    .toSorted((a, b) => a.code.localeCompare(b.code));
}

/** Whether anybody of the shop is qualified for these welds at this cell today. */
export function isAnybodyQualified(facts: Omit<Question, 'coded'>): boolean {
  const question = { ...facts, coded: false };
  const people = new Set(facts.certificates.map(({ personId }) => personId));
  return [...people].some((id) => isQualified(question, id));
}

/** As `standingOf`, without the words: planning asks this of each step at each robot. */
function isQualified(question: Question, personId: string): boolean {
  const own = question.certificates.filter((each) => each.personId === personId);
  if (missingWords(question, own) !== null) return false;
  return weldsOf(question).every((weld) =>
    own.some((certificate) => judged(certificate, weld, question).faults.length === 0),
  );
}

/** A step without welds is judged once, by what does not depend on a weld. */
function weldsOf({ welds }: Question): readonly (WeldToMake | null)[] {
  return welds.length === 0 ? [null] : welds;
}

function othersWords(facts: PersonRuleFacts): string {
  const others = qualifiedPeople(facts).map(({ code, name }) => `${code} ${name}`);
  return others.length === 0
    ? 'Nobody is qualified for it today.'
    : `Qualified today: ${others.slice(0, 5).join(', ')}.`;
}

interface Standing {
  readonly obstacle: Obstacle | null;
  readonly untold: readonly PersonVariable[];
}

/** What stands in a person's way, in words; without an obstacle, what the certificates leave untold. */
function standingOf(question: Question, personId: string): Standing {
  const own = question.certificates.filter((each) => each.personId === personId);
  const missing = missingWords(question, own);
  const { coded, policy: table } = question;
  const does = personPolicy({ variable: 'certificate', result: 'outside', coded, table });
  const strength = does === 'refuse' ? 'refuse' : 'gate';
  if (missing !== null) return { obstacle: { strength, words: missing }, untold: [] };
  const untold = new Set<PersonVariable>();
  for (const weld of weldsOf(question)) {
    const nearest = nearestOf(own, weld, question);
    if (nearest === undefined) continue;
    if (nearest.faults.length > 0)
      return { obstacle: obstacleOf(nearest, weld, question), untold: [] };
    for (const variable of nearest.untold) untold.add(variable);
  }
  return { obstacle: null, untold: [...untold] };
}

/** No certificate of the kind that counts at this cell. */
function missingWords({ cell }: Question, own: readonly CertificateFacts[]): string | null {
  const welder = own.some(({ kind }) => kind === 'welder');
  if (cell.kind !== 'robot') return welder ? null : "no welder's certificate is on file";
  if (own.some(({ kind, cellId }) => kind !== 'welder' && cellId === cell.id)) return null;
  const byHand = "; a welder's certificate for welding by hand does not count at a robot";
  return `no operator's certificate for ${cell.code}${welder ? byHand : ''}`;
}

function nearestOf(
  own: readonly CertificateFacts[],
  weld: WeldToMake | null,
  question: Question,
): Judged | undefined {
  const each = own.map((certificate) => judged(certificate, weld, question));
  return each.toSorted((a, b) => farness(a) - farness(b))[0];
}

function judged(
  certificate: CertificateFacts,
  weld: WeldToMake | null,
  question: Question,
): Judged {
  const lines = judgeCertificate(certificate, weld, question);
  return {
    certificate,
    faults: lines.filter(({ strength }) => strength === 'gate' || strength === 'refuse'),
    untold: lines.filter(({ strength }) => strength === 'tell').map(({ line }) => line.variable),
  };
}

/** A certificate that has only lapsed is nearer than one whose ranges do not hold the weld. */
function farness({ faults }: Judged): number {
  const dates = faults.filter(({ line }) => isDateLine(line.variable)).length;
  return (faults.length - dates) * 10 + dates;
}

function obstacleOf(
  { certificate, faults }: Judged,
  weld: WeldToMake | null,
  { today }: Question,
): Obstacle {
  const strength = faults.some((each) => each.strength === 'refuse') ? 'refuse' : 'gate';
  const ranged = faults.filter(({ line }) => !isDateLine(line.variable));
  const lapse = lapseWords(certificate, today);
  const words =
    ranged.length === 0
      ? `certificate ${certificate.number}: ${lapse ?? 'its last day cannot be told, as neither an end nor a way of renewal is on file'}`
      : faultWords(
          ranged.map(({ line }) => line),
          certificate,
        );
  return { strength, words: weld === null ? words : `weld ${weld.number}: ${words}` };
}
