import { describe, expect, it } from 'vitest';
import { setUpFigures } from './set-up-figures.js';

const dialled = {
  ...{ currentA: 250, voltageV: 27, wireSpeedMMin: 8, travelMmMin: 450 },
  wireDiameterMm: 1.2,
};

describe('what the dialled settings come to', () => {
  it('1.131 mm² x 8000 x 0.96 / 450 = 19.30 mm², root 4.393 mm; 60 x 27 x 250 / 450 000 = 0.9 kJ/mm', () => {
    const { laid, energy, explained } = setUpFigures(dialled);
    expect(laid?.value).toBeCloseTo(4.393, 3);
    expect(energy?.value).toBeCloseTo(0.9, 9);
    expect(explained).toHaveLength(2);
  });
  it.each([
    ['currentA', true, false],
    ['voltageV', true, false],
    ['wireSpeedMMin', false, true],
    ['wireDiameterMm', false, true],
    ['travelMmMin', false, false],
  ] as const)('without %s says only what it can', (missing, hasLaid, hasEnergy) => {
    const { laid, energy, explained } = setUpFigures({ ...dialled, [missing]: null });
    expect([laid !== null, energy !== null]).toEqual([hasLaid, hasEnergy]);
    expect(explained).toHaveLength(Number(hasLaid) + Number(hasEnergy));
  });
  it('says nothing of settings that cannot be', () => {
    const { laid, energy } = setUpFigures({ ...dialled, travelMmMin: 0 });
    expect([laid, energy]).toEqual([null, null]);
  });
});
