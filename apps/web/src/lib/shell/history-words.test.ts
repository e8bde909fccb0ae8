import { describe, expect, it } from 'vitest';
import { changesBetween, eventInWords } from './history-words.js';

/** Own wording. */
describe('eventInWords', () => {
  it('reads the name of an event aloud', () => {
    expect(eventInWords('person.pinIssued')).toBe('Person PIN issued');
    expect(eventInWords('wps.approved')).toBe('WPS approved');
    expect(eventInWords('wpqr.test-made')).toBe('WPQR test made');
  });
});

describe('changesBetween', () => {
  it('names the fields that differ, from and to', () => {
    const before = { version: 1, name: 'A', dueOn: null, shifts: [1], steps: [1] };
    const after = { version: 2, name: 'B', dueOn: '2026-10-07', shifts: [1, 2], steps: [1] };
    expect(changesBetween(before, after)).toEqual([
      { name: 'Name', values: { from: 'A', to: 'B' } },
      { name: 'Due on', values: { from: '–', to: '2026-10-07' } },
      { name: 'Shifts', values: null },
    ]);
  });
  it('shows text as typed and says nothing of a new record', () => {
    const [change] = changesBetween({ name: 'x' }, { name: "O'Neil <b>" });
    expect(change?.values?.to).toBe("O'Neil <b>");
    expect(changesBetween(null, { name: 'x' })).toEqual([]);
  });
});
