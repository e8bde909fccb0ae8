import { describe, expect, it } from 'vitest';
import { arranged, isSamePlace, placeBeside, placeEarlier, placeLater } from './lane-order.js';

const lanes = [
  { cellId: 'B1', cellKind: 'booth', steps: [{ id: 'a' }, { id: 'b' }, { id: 'c' }] },
  { cellId: 'R1', cellKind: 'robot', steps: [{ id: 'x' }] },
  { cellId: 'B2', cellKind: 'booth', steps: [{ id: 'm' }] },
];

function orderAfter(stepId: string, place: { cellId: string; beforeStepId: string | null } | null) {
  if (place === null) return null;
  return arranged(lanes, stepId, place).map((lane) => lane.steps.map((step) => step.id).join(''));
}

describe('moving a step by one place', () => {
  it('goes earlier until it is first', () => {
    expect(orderAfter('c', placeEarlier(lanes, 'c'))).toEqual(['acb', 'x', 'm']);
    expect(placeEarlier(lanes, 'a')).toBeNull();
  });
  it('goes later until it is last', () => {
    expect(orderAfter('a', placeLater(lanes, 'a'))).toEqual(['bac', 'x', 'm']);
    expect(orderAfter('b', placeLater(lanes, 'b'))).toEqual(['acb', 'x', 'm']);
    expect(placeLater(lanes, 'c')).toBeNull();
  });
  it('goes to the next lane of the same kind, at the same height or at its end', () => {
    expect(orderAfter('a', placeBeside(lanes, 'a', 'right'))).toEqual(['bc', 'x', 'am']);
    expect(orderAfter('c', placeBeside(lanes, 'c', 'right'))).toEqual(['ab', 'x', 'mc']);
    expect(orderAfter('m', placeBeside(lanes, 'm', 'left'))).toEqual(['mabc', 'x', '']);
    expect(placeBeside(lanes, 'a', 'left')).toBeNull();
    expect(placeBeside(lanes, 'x', 'right')).toBeNull();
  });
  it('answers nothing for a step that is in no lane', () => {
    expect(placeEarlier(lanes, 'gone')).toBeNull();
    expect(placeLater(lanes, 'gone')).toBeNull();
    expect(placeBeside(lanes, 'gone', 'left')).toBeNull();
  });
});

describe('arranged', () => {
  it('puts a step at the end when the one to stand before is gone', () => {
    expect(orderAfter('a', { cellId: 'B1', beforeStepId: 'gone' })).toEqual(['bca', 'x', 'm']);
  });
  it('leaves the lanes alone when the step or the cell is gone', () => {
    expect(arranged(lanes, 'gone', { cellId: 'B1', beforeStepId: null })).toBe(lanes);
    expect(arranged(lanes, 'a', { cellId: 'gone', beforeStepId: null })).toBe(lanes);
  });
});

describe('isSamePlace', () => {
  it('knows the place before itself and before its follower', () => {
    expect(isSamePlace(lanes, 'a', { cellId: 'B1', beforeStepId: 'b' })).toBe(true);
    expect(isSamePlace(lanes, 'a', { cellId: 'B1', beforeStepId: 'a' })).toBe(true);
    expect(isSamePlace(lanes, 'c', { cellId: 'B1', beforeStepId: null })).toBe(true);
    expect(isSamePlace(lanes, 'a', { cellId: 'B1', beforeStepId: null })).toBe(false);
    expect(isSamePlace(lanes, 'a', { cellId: 'B2', beforeStepId: 'm' })).toBe(false);
  });
});
