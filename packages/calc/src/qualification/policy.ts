import type { FitAnswer, FitResult, FitVariable } from './answer.js';
import type { PersonVariable } from './person/facts.js';

/** What an answer does: pass; shown and recorded; stopped unless a named role gives a reason; no way on. */
export type Strength = 'pass' | 'tell' | 'gate' | 'refuse';

interface Rule {
  outside: Strength;
  /** On a part flagged as needing qualified people and procedures. */
  outsideCoded: Strength;
  cannotSay: Strength;
}

const gated: Rule = { outside: 'gate', outsideCoded: 'gate', cannotSay: 'gate' };
/** A procedure that does not cover the weld is no qualified procedure for it. */
const covered: Rule = { outside: 'gate', outsideCoded: 'refuse', cannotSay: 'gate' };

/** The shop's own rules, not those of a code. */
const rules: Readonly<Record<FitVariable, Rule>> = {
  process: covered,
  mechanisation: gated,
  materialGroup: covered,
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

/** What one line of a fit does, by variable, result and whether the part is coded. */
export function fitPolicy(line: {
  variable: FitVariable;
  result: FitResult;
  coded: boolean;
}): Strength {
  if (line.result === 'inside') return 'pass';
  const rule = rules[line.variable];
  if (line.result === 'cannotSay') return rule.cannotSay;
  return line.coded ? rule.outsideCoded : rule.outside;
}

/** Variables that few certificates print: where nothing is on record it is shown, not stopped. */
const seldomPrinted: ReadonlySet<PersonVariable> = new Set([
  'transfer',
  'fillerGroup',
  'runs',
  'jointSensor',
  'arcSensor',
]);

/** What one line of a person's fit does: the shop's own rule, like that of procedures. */
export function personPolicy(line: {
  variable: PersonVariable;
  result: FitResult;
  coded: boolean;
}): Strength {
  if (line.result === 'inside') return 'pass';
  if (line.result === 'cannotSay') return seldomPrinted.has(line.variable) ? 'tell' : 'gate';
  return line.coded ? 'refuse' : 'gate';
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
