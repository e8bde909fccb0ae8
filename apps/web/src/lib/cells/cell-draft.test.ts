import type { Cell } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { bodyOf, draftOf } from './cell-draft.js';

const robot: Cell = {
  id: '00000000-0000-4000-8000-000000000001',
  version: 3,
  active: true,
  calendar: { shifts: [], dayChanges: [] },
  code: 'R1',
  name: 'Robot one',
  kind: 'robot',
  processes: ['135', '136'],
  mechanisation: 'fullyMechanised',
  stations: 2,
  sourceRatingA: 400,
  sourceRatingPct: 100,
  torchRatingA: 250,
  torchRatingPct: 60,
  torchMaxA: 300,
  torchRatingGas: 'M21',
  reachMm: 1400,
  loadKg: null,
  travelUnit: 'cm/min',
  planningFactor: 0.75,
  gasLossFactor: 1.1,
  extraction: 'Arm at station 1',
};

/** Own form; invented cell. */
describe('the form of a cell', () => {
  it('sends back what is stored when nothing was typed', () => {
    expect(robot).toMatchObject(bodyOf(draftOf(robot)));
    const kept = ['id', 'version', 'active', 'calendar'];
    expect([...Object.keys(bodyOf(draftOf(robot))), ...kept].toSorted()).toEqual(
      Object.keys(robot).toSorted(),
    );
  });
  it('reads processes with commas or spaces and an empty gas as none', () => {
    const body = bodyOf({
      ...draftOf(robot),
      processes: ' 135;136, 138 141 ',
      torchRatingGas: ' ',
    });
    expect(body.processes).toEqual(['135', '136', '138', '141']);
    expect(body.torchRatingGas).toBeNull();
  });
});
