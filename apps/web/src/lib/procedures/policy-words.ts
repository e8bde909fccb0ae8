import type { FitLine } from '@tackboard/contract';
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
