import { procedures, type Wpqr } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { rangesDraft, rangesOf } from './ranges-draft.js';
import { wpqrBody, wpqrDraft } from './wpqr-draft.js';

const record: Wpqr = {
  id: '00000000-0000-4000-8000-000000000001',
  version: 3,
  wpsNumbers: ['WPS-1'],
  number: 'WPQR-1',
  code: 'ISO 15614-1',
  edition: '2017',
  level: '2',
  process: '135',
  mechanisation: 'partlyMechanised',
  testedOn: '2024-03-14',
  examiner: 'Invented examiner',
  testPiece: {
    jointType: 'fillet',
    thicknessMm: 10,
    diameterMm: null,
    material: 'S355J2',
    materialGroup: '1.2',
    yieldMPa: null,
    throatMm: 5,
    position: 'PB',
    runs: 'single',
    sides: 'both',
    backing: '',
  },
  testedValues: {
    currentA: 240,
    voltageV: 27,
    wireSpeedMMin: 8.5,
    travelMmMin: 420,
    heatInputKjMm: null,
    preheatC: null,
    interpassC: null,
  },
  testResults: [{ test: 'Visual', outcome: 'passed', note: '' }],
  filler: 'G 42 4 M21 3Si1',
  gas: 'M21',
  transfer: null,
  ranges: rangesOf({ ...rangesDraft(), process: '135', mechanisations: ['partlyMechanised'] }),
};

describe('wpqrBody', () => {
  it('sends back what was stored, in the shape that the contract asks for', () => {
    const stored = { ...record, id: undefined, version: undefined, wpsNumbers: undefined };
    const body = wpqrBody(wpqrDraft(record));
    expect(body).toEqual(stored);
    expect(procedures.addWpqr.body.safeParse(body).success).toBe(true);
  });
  it('sends nothing without the day of the test or the thickness of the piece', () => {
    const draft = wpqrDraft(record);
    expect(wpqrBody({ ...draft, testedOn: null })).toBeNull();
    const testPiece = { ...draft.testPiece, thicknessMm: null };
    expect(wpqrBody({ ...draft, testPiece })).toBeNull();
  });
  it('sends an empty level and transfer as not stated', () => {
    const body = wpqrBody({ ...wpqrDraft(record), level: ' ', transfer: '' });
    expect([body?.level, body?.transfer]).toEqual([null, null]);
  });
});
