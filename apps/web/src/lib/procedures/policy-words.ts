import { strengths, type FitLine } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

type Strength = FitLine['strength'];

export function strengthMark(strength: Strength) {
  const marks = {
    pass: { tone: 'good', word: m.policy_pass() },
    tell: { tone: 'unknown', word: m.policy_tell() },
    gate: { tone: 'tell', word: m.policy_gate() },
    refuse: { tone: 'stop', word: m.policy_refuse() },
  } as const satisfies Record<Strength, object>;
  return marks[strength];
}

export type PolicyAnswer = 'outside' | 'outsideCoded' | 'cannotSay';

/** The label of a field of a rule, by its name or its path in a refusal. */
export function answerLabel(field: string): string {
  const labels: Readonly<Record<string, () => string>> = {
    outside: m.policy_outside,
    outsideCoded: m.policy_outside_coded,
    cannotSay: m.policy_cannot_say,
    reason: m.policy_reason,
  };
  const name = field.replace(/^body\./, '');
  return labels[name]?.() ?? name;
}

/** A choice of the list as the contract knows it; the strictest for what is none of them. */
export function strengthNamed(value: string): Strength {
  return strengths.find((strength) => strength === value) ?? 'refuse';
}
