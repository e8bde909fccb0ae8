import type { FitAnswer, FitResult, FitVariable } from './answer.js';
import type { PersonVariable } from './person/facts.js';

/** What an answer does: pass; shown and recorded; stopped unless a named role gives a reason; no way on. */
export type Strength = 'pass' | 'tell' | 'gate' | 'refuse';

/** What the answers of one variable do. */
export interface PolicyRow {
  readonly outside: Strength;
  /** On a part flagged as needing qualified people and procedures. */
  readonly outsideCoded: Strength;
  readonly cannotSay: Strength;
}

export interface PolicyTable {
  readonly procedure: Readonly<Record<FitVariable, PolicyRow>>;
  readonly person: Readonly<Record<PersonVariable, PolicyRow>>;
}

const gated: PolicyRow = { outside: 'gate', outsideCoded: 'gate', cannotSay: 'gate' };
/** A procedure that does not cover the weld is no qualified procedure for it. */
const covered: PolicyRow = { outside: 'gate', outsideCoded: 'refuse', cannotSay: 'gate' };

const procedureRules: PolicyTable['procedure'] = {
  process: covered,
  mechanisation: gated,
  materialGroup: covered,
  // Few procedures print it, and many steels do not name it.
  yield: { ...covered, cannotSay: 'tell' },
  thickness: covered,
  jointType: covered,
  throat: covered,
  position: covered,
  wireDiameter: gated,
  filler: gated,
  gas: gated,
  current: gated,
  voltage: gated,
  wireSpeed: gated,
  travel: gated,
  heatInput: gated,
  // A demanded preheat that nobody has measured is as bad as a cold plate: no reason given later can warm it.
  preheat: { outside: 'refuse', outsideCoded: 'refuse', cannotSay: 'refuse' },
  // There is nothing to measure before the second run.
  interpass: { outside: 'gate', outsideCoded: 'gate', cannotSay: 'tell' },
};

/** Few certificates print it: where nothing is on record it is shown, not stopped. */
const seldomPrinted: PolicyRow = { ...covered, cannotSay: 'tell' };

const personRules: PolicyTable['person'] = {
  role: covered,
  certificate: covered,
  code: covered,
  mechanisation: covered,
  validity: covered,
  confirmation: covered,
  process: covered,
  transfer: seldomPrinted,
  jointType: covered,
  position: covered,
  thickness: covered,
  diameter: covered,
  materialGroup: covered,
  fillerGroup: seldomPrinted,
  unit: covered,
  functionTest: covered,
  runs: seldomPrinted,
  jointSensor: seldomPrinted,
  arcSensor: seldomPrinted,
};

/** The shop's own rules as they stand until somebody changes a row; not those of a code. */
export const startingPolicy: PolicyTable = { procedure: procedureRules, person: personRules };

interface Line<Variable> {
  readonly variable: Variable;
  readonly result: FitResult;
  readonly coded: boolean;
  /** The table of the shop; the one it starts with where it is left out. */
  readonly table?: PolicyTable;
}

/** What one line of a fit does, by variable, result and whether the part is coded. */
export function fitPolicy({ table = startingPolicy, ...line }: Line<FitVariable>): Strength {
  return whatItDoes(table.procedure[line.variable], line);
}

function whatItDoes(row: PolicyRow, line: { result: FitResult; coded: boolean }): Strength {
  if (line.result === 'inside') return 'pass';
  if (line.result === 'cannotSay') return row.cannotSay;
  return line.coded ? row.outsideCoded : row.outside;
}

/** What one line of a person's fit does: the shop's own rule, like that of procedures. */
export function personPolicy({ table = startingPolicy, ...line }: Line<PersonVariable>): Strength {
  return whatItDoes(table.person[line.variable], line);
}

/** Outside never merely passes on, and what cannot be said is never taken for inside. */
const leastOfAll: PolicyRow = { outside: 'gate', outsideCoded: 'gate', cannotSay: 'tell' };
/** Nobody welds a coded part on a certificate that is missing, ended or not confirmed. */
const leastOfStanding: PolicyRow = { ...leastOfAll, outsideCoded: 'refuse', cannotSay: 'gate' };
const leastOfPreheat = procedureRules.preheat;

/** The least that the answers of a variable do in any shop: a row may be stricter, never laxer. */
export function policyFloor(
  of:
    | { readonly subject: 'procedure'; readonly variable: FitVariable }
    | { readonly subject: 'person'; readonly variable: PersonVariable },
): PolicyRow {
  if (of.subject === 'procedure') return of.variable === 'preheat' ? leastOfPreheat : leastOfAll;
  const standing = ['certificate', 'validity', 'confirmation'].includes(of.variable);
  return standing ? leastOfStanding : leastOfAll;
}

/** The answers of a row that do less than they have to; empty where all do enough. */
export function laxAnswers(row: PolicyRow, least: PolicyRow): (keyof PolicyRow)[] {
  const answers = ['outside', 'outsideCoded', 'cannotSay'] as const;
  return answers.filter((answer) => order.indexOf(row[answer]) > order.indexOf(least[answer]));
}

const order: readonly Strength[] = ['refuse', 'gate', 'tell', 'pass'];

/** The strongest of several; `gate` when there is none, because nothing checked is nothing shown to fit. */
export function strongest(strengths: readonly Strength[]): Strength {
  return order.find((strength) => strengths.includes(strength)) ?? 'gate';
}

/** What a whole answer does: its strongest line. */
export function strength(answer: FitAnswer, part: { coded: boolean }): Strength {
  return strongest(
    answer.lines.map(({ variable, result }) => fitPolicy({ variable, result, coded: part.coded })),
  );
}
