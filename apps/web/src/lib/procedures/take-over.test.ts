import type { SuggestedRange } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { rangesDraft } from './ranges-draft.js';
import { mayTakeOver, takeOver } from './take-over.js';

const suggested: SuggestedRange = {
  ...{ variable: 'thickness', field: 'thicknessMm', answer: 'range', unit: 'mm' },
  ...{ min: 3, max: 24, values: [], unsure: null, words: '3 to 24 mm' },
  ...{ rule: 'ISO 15614-1:2017 8.3.2, Table 7', confidence: 'medium', source: '', check: null },
};
const taken = (changes: Partial<SuggestedRange>) => {
  const draft = rangesDraft();
  takeOver(draft, { ...suggested, ...changes });
  return draft;
};

describe('taking over what a rule gives', () => {
  it('fills the field of the variable and no other', () => {
    expect(taken({})).toEqual({ ...rangesDraft(), thicknessMm: { min: 3, max: 24 } });
    expect(taken({ field: 'preheatMinC', min: 80, max: null }).preheatMinC).toBe(80);
    expect(taken({ field: 'interpassMaxC', min: null, max: 250 }).interpassMaxC).toBe(250);
  });

  it('checks what the form offers of a list', () => {
    const list = { answer: 'list', field: 'positions', values: ['PA', 'PF', 'H-L045'] } as const;
    expect(taken({ ...list, values: [...list.values] }).positions).toEqual(['PA', 'PF']);
    expect(taken({ answer: 'list', field: 'gases', values: ['M21'] }).gases).toBe('M21');
  });

  it('takes nothing that the rule does not say, and no pairs of materials', () => {
    const pairs = { answer: 'list', field: 'materialGroups', values: ['1-1', '2-1'] } as const;
    for (const changes of [
      { answer: 'cannotSay' } as const,
      { answer: 'any' } as const,
      { field: null },
      { ...pairs, values: [...pairs.values] },
    ]) {
      expect(mayTakeOver({ ...suggested, ...changes })).toBe(false);
      expect(taken(changes)).toEqual(rangesDraft());
    }
  });
});
