import { describe, expect, it } from 'vitest';
import { emptyLine, isNameOf, lineBody, missingFields } from './line-draft.js';

const full = {
  ...emptyLine(),
  partId: 'p1',
  orderedRevision: ' C ',
  quantity: 40,
  dueOn: '2026-10-07',
};

describe('missingFields', () => {
  it('names what is empty in the order of the form', () => {
    expect(missingFields(emptyLine())).toEqual(['partId', 'orderedRevision', 'quantity', 'dueOn']);
    expect(missingFields({ ...full, orderedRevision: '  ' })).toEqual(['orderedRevision']);
    expect(missingFields(full)).toEqual([]);
  });
});

describe('lineBody', () => {
  it('is nothing while a field is missing', () => {
    expect(lineBody({ ...full, dueOn: null })).toBeNull();
    expect(lineBody({ ...full, partId: '' })).toBeNull();
  });
  it('sends the revision trimmed and no reason that is not there', () => {
    expect(lineBody(full)).toEqual({
      partId: 'p1',
      orderedRevision: 'C',
      drawingPrint: null,
      quantity: 40,
      dueOn: '2026-10-07',
      pastDueReason: null,
      quantityConfirmed: false,
      partConfirmed: false,
      cells: [],
    });
  });
  it('keeps a confirmation only for the quantity that was confirmed', () => {
    expect(lineBody({ ...full, confirmedQuantity: 40 })?.quantityConfirmed).toBe(true);
    expect(lineBody({ ...full, confirmedQuantity: 4 })?.quantityConfirmed).toBe(false);
  });
  it('keeps a confirmation only for the part that was confirmed', () => {
    expect(lineBody({ ...full, confirmedPartId: 'p1' })?.partConfirmed).toBe(true);
    expect(lineBody({ ...full, confirmedPartId: 'p2' })?.partConfirmed).toBe(false);
  });
  it('takes a reason once it is one, and the chosen places by step', () => {
    expect(lineBody({ ...full, pastDueReason: 'ab' })?.pastDueReason).toBeNull();
    const line = lineBody({
      ...full,
      pastDueReason: ' agreed by phone ',
      cells: { 10: { cellId: 'c1', beforeStepId: 's1' } },
    });
    expect(line?.pastDueReason).toBe('agreed by phone');
    expect(line?.cells).toEqual([{ stepNumber: 10, cellId: 'c1', beforeStepId: 's1' }]);
  });
});

describe('isNameOf', () => {
  const part = { number: 'X-210-01', aliases: ['Y-88'] };
  it('knows the number and the other names, whatever the case', () => {
    expect(isNameOf(part, 'x-210-01')).toBe(true);
    expect(isNameOf(part, ' y-88 ')).toBe(true);
  });
  it('does not take a beginning for the whole', () => {
    expect(isNameOf(part, 'X-210')).toBe(false);
    expect(isNameOf(part, 'Y-881')).toBe(false);
    expect(isNameOf(part, '')).toBe(false);
  });
});
