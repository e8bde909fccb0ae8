import type { SetUp } from '@tackboard/contract';
import { expect, it } from 'vitest';
import { firstSetUp, frozenFrom } from './frozen-set-up.js';

const setUp = {
  ...{ wireSpeedMMin: 9, voltageV: 26.5, contactTipMm: 15, programRevision: '4' },
  watchOuts: ['clamp first'],
} as unknown as SetUp;
const bench = {
  ...{ stepId: 'step', cellId: 'cell', cellCode: 'R1', mechanisation: 'fullyMechanised' as const },
  ...{ wireItemId: 'wire', gasItemId: 'gas' },
};
const closing = { programAtStart: '4', programAtClose: null, watchOuts: null, closedOutAt: null };
const freeze = (changes: Partial<Parameters<typeof frozenFrom>[0]> = {}) =>
  frozenFrom({ setUp, changes: [], closing, good: 12, quantity: 12, ...changes });
const change = (variable: string, to: string, result = 'inside') => ({
  ...{ variable, to, result },
  at: new Date('2026-10-05T08:00:00Z'),
});

it('keeps the set-up as it was run: the changes on top, the program and the lines of the close', () => {
  const frozen = freeze({
    changes: [change('wireSpeedMMin', '9.6'), change('contactTipMm', '18', 'cannotSay')],
    closing: { ...closing, programAtClose: '5', watchOuts: ['leg grows at the corner'] },
  });
  expect(frozen).toMatchObject({
    ...{ wireSpeedMMin: 9.6, contactTipMm: 18, voltageV: 26.5, programRevision: '5' },
    watchOuts: ['leg grows at the corner'],
  });
});

it('keeps what nobody said anything about', () => {
  expect(freeze()).toMatchObject({ programRevision: '4', watchOuts: ['clamp first'] });
  expect(freeze({ closing: { ...closing, programAtStart: null } })?.programRevision).toBe('4');
});

it.each([
  ['a batch that is short', { good: 11 }],
  ['settings that ended outside', { changes: [change('travelMmMin', '300', 'outside')] }],
  ['a step without a set-up of which nobody said a value', { setUp: firstSetUp(bench, []) }],
])('takes no example from %s', (_words, facts) => {
  expect(freeze(facts)).toBeNull();
});

it('a program change does not hide settings that ended outside', () => {
  const program = change('programRevision', '5', 'cannotSay');
  expect(freeze({ changes: [change('travelMmMin', '300', 'outside'), program] })).toBeNull();
});

it('takes one from a run that was set back inside', () => {
  const changes = [change('travelMmMin', '300', 'outside'), change('travelMmMin', '520')];
  expect(freeze({ changes })).not.toBeNull();
});

it('a step without a set-up keeps what was loaded, read and changed as its first one', () => {
  const reading = { currentA: 250, voltageV: null, wireSpeedMMin: 9.1, travelMmMin: null };
  const readings = [
    { ...reading, preheatC: null },
    { ...reading, currentA: 255, wireSpeedMMin: null, preheatC: null },
  ] as unknown as Parameters<typeof firstSetUp>[1];
  const setUp = firstSetUp(bench, readings);
  expect(
    freeze({
      setUp,
      closing: { ...closing, programAtStart: null },
      changes: [change('voltageV', '27')],
    }),
  ).toMatchObject({
    ...{ stepId: 'step', wireItemId: 'wire', gasItemId: 'gas', programRevision: null },
    ...{ currentA: 255, wireSpeedMMin: 9.1, voltageV: 27, travelMmMin: null, watchOuts: [] },
  });
});
