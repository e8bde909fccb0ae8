import { describe, expect, it } from 'vitest';
import { lacksCertificate, loadState } from './marks.js';

/** Invented cells and batches; the comparison is plain arithmetic. */
const batch = { cellId: 'R1', jobNumber: 12, wireKg: 1.77, gasL: 356 };
const wire = { kind: 'wire', unit: 'kg', leftAmount: 3.2 } as const;

describe('loadState', () => {
  it('compares what is left with what the batch still takes', () => {
    expect(loadState(wire, batch)).toEqual({ kind: 'enough', need: 1.77, jobNumber: 12 });
    expect(loadState({ ...wire, leftAmount: 1.77 }, batch).kind).toBe('enough');
    expect(loadState({ ...wire, leftAmount: 1.76 }, batch).kind).toBe('short');
    expect(loadState({ kind: 'gas', unit: 'l', leftAmount: 300 }, batch)).toEqual({
      kind: 'short',
      need: 356,
      jobNumber: 12,
    });
  });
  it('says used up before all else', () => {
    expect(loadState({ ...wire, leftAmount: 0 }, batch)).toEqual({ kind: 'usedUp' });
    expect(loadState({ ...wire, leftAmount: 0 }, undefined)).toEqual({ kind: 'usedUp' });
  });
  it('does not guess without a batch, without a figure or across units', () => {
    expect(loadState(wire, undefined)).toEqual({ kind: 'unknown' });
    expect(loadState(wire, { ...batch, wireKg: null })).toEqual({ kind: 'unknown' });
    expect(loadState({ kind: 'wire', unit: 'pcs', leftAmount: 1 }, batch).kind).toBe('unknown');
    expect(loadState({ kind: 'tip', unit: 'pcs', leftAmount: 1 }, batch).kind).toBe('unknown');
  });
});

describe('lacksCertificate', () => {
  it('asks for one where the lot becomes part of the weld', () => {
    expect(lacksCertificate({ kind: 'wire', certificate: null })).toBe(true);
    expect(lacksCertificate({ kind: 'electrode', certificate: null })).toBe(true);
    expect(lacksCertificate({ kind: 'wire', certificate: '3.1 L-77' })).toBe(false);
    expect(lacksCertificate({ kind: 'gas', certificate: null })).toBe(false);
    expect(lacksCertificate({ kind: 'tip', certificate: null })).toBe(false);
  });
});
