import { WpsRanges } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { rangesDraft, rangesOf } from './ranges-draft.js';

const stored: WpsRanges = {
  process: '135',
  mechanisations: ['partlyMechanised', 'fullyMechanised'],
  materialGroups: ['1.1', '1.2'],
  jointTypes: ['fillet'],
  positions: ['PA', 'PB'],
  fillers: ['G 42 4 M21 3Si1'],
  gases: ['M21'],
  yieldMPa: { min: null, max: 500 },
  thicknessMm: { min: 3, max: null },
  throatMm: null,
  wireDiameterMm: { min: 1.2, max: 1.2 },
  currentA: { min: 190, max: 290 },
  voltageV: null,
  wireSpeedMMin: { min: 6, max: 10.5 },
  travelMmMin: { min: 300, max: 560 },
  heatInputKjMm: { min: null, max: 1.5 },
  heatInputBasis: 'arcEnergy',
  preheatMinC: null,
  interpassMaxC: 250,
};

describe('rangesOf', () => {
  it('sends back what was stored', () => {
    expect(rangesOf(rangesDraft(stored))).toEqual(stored);
  });
  it('has the shape that the contract asks for, also where nothing is stated', () => {
    const draft = { ...rangesDraft(), process: '141', mechanisations: ['manual'] };
    expect(WpsRanges.safeParse(rangesOf(draft)).success).toBe(true);
    expect(rangesOf(draft)).toMatchObject({ thicknessMm: null, heatInputBasis: 'heatInput' });
  });
  it('splits typed lists at commas and leaves no empty entry', () => {
    expect(rangesOf({ ...rangesDraft(stored), gases: 'M21, M20;, ' }).gases).toEqual([
      'M21',
      'M20',
    ]);
  });
});

describe('rangesDraft', () => {
  it('copies the limits, so that typing does not change what was stored', () => {
    const draft = rangesDraft(stored);
    draft.currentA.max = 320;
    draft.positions.push('PF');
    expect(stored.currentA).toEqual({ min: 190, max: 290 });
    expect(stored.positions).toEqual(['PA', 'PB']);
  });
});
