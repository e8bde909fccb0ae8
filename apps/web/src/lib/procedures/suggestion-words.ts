import type { SuggestedRange } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

type Check = NonNullable<SuggestedRange['check']>['answer'];

export function checkMark(answer: Check) {
  const marks = {
    agrees: { tone: 'good', word: m.rule_agrees() },
    ask: { tone: 'tell', word: m.rule_ask() },
    cannotSay: { tone: 'unknown', word: m.rule_not_compared() },
  } as const satisfies Record<Check, object>;
  return marks[answer];
}

export function sureWord(confidence: SuggestedRange['confidence']): string {
  const words = {
    high: m.rule_sure_high,
    medium: m.rule_sure_medium,
    low: m.rule_sure_low,
  } as const satisfies Record<SuggestedRange['confidence'], () => string>;
  return words[confidence]();
}
