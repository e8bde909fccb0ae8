import { describe, expect, it } from 'vitest';
import { pieceMore, statedMore } from './piece-more.js';

describe('what else a record says of its test piece', () => {
  it('sends back what was stored, and nothing that was not', () => {
    const stored = {
      ...{ impactRequired: false, impactTested: true, depositedMm: 12, product: 'plate' as const },
      materialGroupB: '8.1',
    };
    const { piece, values } = statedMore(
      pieceMore(
        { ...stored } as Parameters<typeof pieceMore>[0],
        {
          wireDiameterMm: 1.2,
        } as Parameters<typeof pieceMore>[1],
      ),
    );
    expect(piece).toEqual(stored);
    expect(values).toEqual({ wireDiameterMm: 1.2 });
  });

  it('keeps no, yes and not stated apart', () => {
    const more = { ...pieceMore(), impactRequired: 'no', hardnessRequired: 'yes' };
    expect(statedMore(more).piece).toEqual({ impactRequired: false, hardnessRequired: true });
    expect(statedMore(pieceMore())).toEqual({ piece: {}, values: {} });
  });
});
