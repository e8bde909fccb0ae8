import { describe, expect, it } from 'vitest';
import { changesBetween, eventInWords } from './history-words.js';

/** Own wording. */
describe('eventInWords', () => {
  it('reads the name of an event aloud', () => {
    expect(eventInWords('person.pinIssued')).toBe('Person pin issued');
  });
});

describe('changesBetween', () => {
  it('names the fields that differ, from and to', () => {
    const before = { version: 1, name: 'A', dueOn: null, steps: [1] };
    const after = { version: 2, name: 'B', dueOn: '2026-10-07', steps: [1] };
    expect(changesBetween(before, after)).toEqual([
      { name: 'name', from: 'A', to: 'B' },
      { name: 'due on', from: '–', to: '2026-10-07' },
    ]);
  });
  it('shows text as typed and says nothing of a new record', () => {
    expect(changesBetween({ name: 'x' }, { name: "O'Neil <b>" })[0]?.to).toBe("O'Neil <b>");
    expect(changesBetween(null, { name: 'x' })).toEqual([]);
  });
});
