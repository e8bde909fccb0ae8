import type { ReadyLine, Weld } from '@tackboard/contract';
import { lapseWords } from './lapse-words.js';
import type { CellFacts, CertificateFacts, PersonFacts } from './facts.js';

type WeldToMake = Pick<
  Weld,
  'number' | 'process' | 'jointType' | 'position' | 'thicknessAMm' | 'thicknessBMm'
>;

export interface PersonRuleFacts {
  readonly person: PersonFacts;
  /** Of every person of the shop: who else could is named too. */
  readonly certificates: readonly CertificateFacts[];
  readonly cell: Pick<CellFacts, 'id' | 'code' | 'kind'>;
  readonly coded: boolean;
  readonly welds: readonly WeldToMake[];
  readonly today: string;
}

/**
 * May this person make these welds at this cell today? At a robot an operator's or setter's certificate for that
 * cell counts, at a booth a welder's certificate whose ranges hold every weld; both must be confirmed. What does
 * not fit is gated on uncoded parts and refused on coded ones: the shop's own rule.
 */
export function personLine(facts: PersonRuleFacts): Omit<ReadyLine, 'overriddenBy'> {
  const { person, cell } = facts;
  const reason = obstacle(facts, person.id);
  const rule = 'person';
  if (reason === null) {
    const words = `${person.code} ${person.name} is qualified for this at ${cell.code}.`;
    return { rule, strength: 'pass', text: words };
  }
  return {
    rule,
    strength: facts.coded ? 'refuse' : 'gate',
    text: `${person.code} ${person.name}: ${reason}. ${othersWords(facts)}`,
  };
}

/** The people who are qualified for these welds at this cell today, by code. */
export function qualifiedPeople(facts: Omit<PersonRuleFacts, 'person' | 'coded'>): PersonFacts[] {
  const people = new Map(
    facts.certificates.map(({ personId, personCode, personName }) => [
      personId,
      { id: personId, code: personCode, name: personName },
    ]),
  );
  return [...people.values()]
    .filter(({ id }) => obstacle(facts, id) === null)
    .toSorted((a, b) => a.code.localeCompare(b.code));
}

function othersWords(facts: PersonRuleFacts): string {
  const others = qualifiedPeople(facts).map(({ code, name }) => `${code} ${name}`);
  return others.length === 0
    ? 'Nobody is qualified for it today.'
    : `Qualified today: ${others.slice(0, 5).join(', ')}.`;
}

type Question = Pick<PersonRuleFacts, 'certificates' | 'cell' | 'welds' | 'today'>;

/** Why a person may not, in words; null when nothing stands in the way. */
function obstacle(facts: Question, personId: string): string | null {
  const own = facts.certificates.filter((each) => each.personId === personId);
  return facts.cell.kind === 'robot' ? robotObstacle(facts, own) : boothObstacle(facts, own);
}

function robotObstacle({ cell, today }: Question, own: readonly CertificateFacts[]): string | null {
  const forCell = own.filter(({ kind, cellId }) => kind !== 'welder' && cellId === cell.id);
  if (forCell.length > 0) return bestOf(forCell, (each) => lapseOf(each, today));
  const welder = own.some(({ kind }) => kind === 'welder');
  return (
    `no operator's certificate for ${cell.code}` +
    (welder ? "; a welder's certificate for welding by hand does not count at a robot" : '')
  );
}

function boothObstacle({ welds, today }: Question, own: readonly CertificateFacts[]) {
  const welder = own.filter(({ kind }) => kind === 'welder');
  if (welder.length === 0) return "no welder's certificate is on file";
  if (welds.length === 0) return bestOf(welder, (each) => lapseOf(each, today));
  for (const weld of welds) {
    const reason = bestOf(welder, (each) => outsideWords(each, weld) ?? lapseOf(each, today));
    if (reason !== null) return `weld ${weld.number}: ${reason}`;
  }
  return null;
}

/** Null when one of the certificates is free of the fault, else the words of the one that is nearest. */
function bestOf(
  certificates: readonly CertificateFacts[],
  faultOf: (certificate: CertificateFacts) => string | null,
): string | null {
  const faults = certificates.map(faultOf);
  if (faults.includes(null)) return null;
  const nearness = (fault: string | null) => (fault?.includes(' outside ') === true ? 1 : 0);
  return faults.toSorted((a, b) => nearness(a) - nearness(b))[0] ?? null;
}

function lapseOf(certificate: CertificateFacts, today: string): string | null {
  const lapse = lapseWords(certificate, today);
  return lapse === null ? null : `certificate ${certificate.number}: ${lapse}`;
}

function outsideWords(certificate: CertificateFacts, weld: WeldToMake): string | null {
  const faults = [
    ...listFault('process', weld.process, [certificate.process]),
    ...listFault('joint', weld.jointType, certificate.jointTypes),
    ...listFault('position', weld.position, certificate.positions),
    ...thicknessFaults(certificate, weld),
  ];
  const [first] = faults;
  return first === undefined ? null : `${first} of certificate ${certificate.number}`;
}

function listFault(word: string, given: string, allowed: readonly string[]): string[] {
  const plain = (text: string) => text.trim().toUpperCase();
  const listed = allowed.map(plain).includes(plain(given));
  return listed ? [] : [`${word} ${given} is outside ${allowed.join(', ') || 'the empty list'}`];
}

function thicknessFaults(certificate: CertificateFacts, weld: WeldToMake): string[] {
  const { thicknessMinMm: min, thicknessMaxMm: max } = certificate;
  const outside = [weld.thicknessAMm, weld.thicknessBMm].find(
    (mm) => (min !== null && mm < min) || (max !== null && mm > max),
  );
  if (outside === undefined) return [];
  const range = max === null ? `${min} mm and more` : `${min ?? 0} to ${max} mm`;
  return [`thickness ${outside} mm is outside ${range}`];
}
