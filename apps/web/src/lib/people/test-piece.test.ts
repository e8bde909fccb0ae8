import { describe, expect, it } from 'vitest';
import { emptyPiece, pieceOf } from './test-piece.js';

describe('the test piece of a certificate', () => {
  it('says nothing where nothing is typed', () => {
    expect(pieceOf(emptyPiece())).toMatchObject({
      ...{ product: null, runs: null, supplementaryFillet: null, layers: null, thicknessMm: null },
    });
  });

  it('tells no from not stated', () => {
    const typed = { ...emptyPiece(), supplementaryFillet: 'no', product: 'pipe', layers: 3 };
    expect(pieceOf(typed)).toMatchObject({
      ...{ supplementaryFillet: false, product: 'pipe', layers: 3 },
    });
  });
});
