import type { Wpqr, WpsInUse } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { bandOfRecords, pointsInUse } from './in-use-points.js';

const dialled = { currentA: 240, voltageV: 26, wireSpeedMMin: null, travelMmMin: 420 };
const setUp = {
  ...{ ...dialled, id: 's', cellCode: 'M1', partNumber: 'X-1', stepNumber: 1 },
  ...{ wireDiameterMm: 1.2, preheatC: null },
};
const reading = { ...dialled, at: '2026-10-05T06:00:00.000Z', preheatC: null, interpassC: null };
const inUse: WpsInUse = {
  setUps: [setUp, { ...setUp, id: 't', currentA: 255 }, { ...setUp, id: 'u' }],
  readings: [
    { ...reading, currentA: 251 },
    { ...reading, currentA: null },
    { ...reading, currentA: 244 },
  ],
};
const record = (currentA: Wpqr['ranges']['currentA']) =>
  ({ ranges: { currentA } }) as Pick<Wpqr, 'ranges'>;

describe('points of a procedure in use', () => {
  it('are each set value once and the readings oldest first, without what was not read', () => {
    expect(pointsInUse(inUse, 'currentA')).toEqual({ sets: [240, 255], readings: [244, 251] });
    expect(pointsInUse(inUse, 'wireDiameterMm')).toEqual({ sets: [1.2], readings: [] });
    expect(pointsInUse(inUse, 'wireSpeedMMin')).toEqual({ sets: [], readings: [] });
  });

  it('are none of what nobody dials, and none while they are on their way', () => {
    expect(pointsInUse(inUse, 'thicknessMm')).toEqual({ sets: [], readings: [] });
    expect(pointsInUse(null, 'currentA')).toEqual({ sets: [], readings: [] });
  });
});

describe('the band of the records', () => {
  it('reaches from the lowest to the highest limit, and is open where one of them is', () => {
    const two = [record({ min: 200, max: 260 }), record({ min: 180, max: 240 })];
    expect(bandOfRecords(two, 'currentA')).toEqual({ min: 180, max: 260 });
    const open = [...two, record({ min: 190, max: null })];
    expect(bandOfRecords(open, 'currentA')).toEqual({ min: 180, max: null });
    expect(bandOfRecords([record(null)], 'currentA')).toBeNull();
  });
});
