import { parts, type Step } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { draftOfStep, nextStep, stepBodies } from './step-draft.js';

const step: Step = {
  id: '00000000-0000-4000-8000-000000000001',
  version: 2,
  number: 1,
  name: 'Weld frame',
  cellKind: 'robot',
  wpsNumber: null,
  setUpMin: 30,
  firstPieceMin: 12,
  unitMin: 4.5,
  startStopS: 2,
  airMovesS: 20,
  cleaningS: 6,
  loadS: 45,
  massKg: 38,
  reachMm: null,
  instructions: '',
  holdPoint: true,
  witnessMin: null,
  setUps: [],
};

describe('stepBodies', () => {
  it('sends back what was stored, in the shape that the contract asks for', () => {
    const stored = { ...step, id: undefined, version: undefined, setUps: undefined };
    const bodies = stepBodies([draftOfStep(step, 0)]);
    expect(bodies).toEqual([stored]);
    expect(parts.setSteps.body.safeParse({ expectedVersion: 1, steps: bodies }).success).toBe(true);
  });
  it('sends nothing while a time is still empty', () => {
    expect(stepBodies([draftOfStep(step, 0), nextStep([draftOfStep(step, 0)])])).toBeNull();
  });
});

describe('nextStep', () => {
  it('goes on counting at the same kind of cell', () => {
    expect(nextStep([draftOfStep(step, 4)])).toMatchObject({
      row: 5,
      number: 2,
      cellKind: 'robot',
    });
  });
});
