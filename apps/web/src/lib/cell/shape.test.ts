import { describe, expect, it } from 'vitest';
import { refusalOfShape } from './shape.js';

describe('refusalOfShape', () => {
  it('lets pass what the contract takes', () => {
    expect(refusalOfShape({ kind: 'count', body: { good: 1 } })).toBeNull();
    expect(refusalOfShape({ kind: 'reading', body: { currentA: 295 } })).toBeNull();
  });
  it('names the field, what was typed and what is allowed', () => {
    const refusal = refusalOfShape({ kind: 'reading', body: { currentA: 26_000, voltageV: 24 } });
    expect(refusal).toMatchObject({
      code: 'INVALID',
      fields: [{ field: 'body.currentA', given: '26000', allowed: 'must be 2000 or less' }],
    });
  });
  it('refuses an empty reading and an empty note', () => {
    expect(refusalOfShape({ kind: 'reading', body: {} })?.message).toContain('at least one value');
    expect(refusalOfShape({ kind: 'note', body: { text: '  ' } })?.fields).toMatchObject([
      { field: 'body.text' },
    ]);
  });
});
