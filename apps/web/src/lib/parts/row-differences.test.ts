import { describe, expect, it } from 'vitest';
import { rowDifferences } from './row-differences.js';

const words = { labelOf: (key: string) => key.toUpperCase(), onTheList: 'on the list' };

describe('rowDifferences', () => {
  it('puts the values of rows with the same number side by side', () => {
    const typed = [{ row: 7, number: '1', length: '80' }];
    const stored = [{ row: 0, number: '1', length: '50' }];
    expect(rowDifferences(typed, stored, words)).toEqual({
      typed: { '1, LENGTH': '80' },
      stored: { '1, LENGTH': '50' },
    });
  });
  it('makes one line of a row that only one side has', () => {
    const typed = [{ number: '2', length: '80' }];
    const stored = [{ number: '3', length: '50' }];
    expect(rowDifferences(typed, stored, words)).toEqual({
      typed: { '2': 'on the list' },
      stored: { '3': 'on the list' },
    });
  });
});
