import { expect, it } from 'vitest';
import type { FitLine, FitResult, FitVariable } from './answer.js';
import {
  fitPolicy,
  laxAnswers,
  personPolicy,
  policyFloor,
  startingPolicy,
  strength,
  strongest,
  type Strength,
} from './policy.js';

/** The shop's own rules: variable, result, on an uncoded part, on a coded part. */
const cases: [FitVariable, FitResult, Strength, Strength][] = [
  ['process', 'outside', 'gate', 'refuse'],
  ['mechanisation', 'outside', 'gate', 'gate'],
  ['materialGroup', 'outside', 'gate', 'refuse'],
  ['thickness', 'outside', 'gate', 'refuse'],
  ['jointType', 'outside', 'gate', 'refuse'],
  ['throat', 'outside', 'gate', 'refuse'],
  ['position', 'outside', 'gate', 'refuse'],
  ['wireDiameter', 'outside', 'gate', 'gate'],
  ['filler', 'outside', 'gate', 'gate'],
  ['gas', 'outside', 'gate', 'gate'],
  ['current', 'outside', 'gate', 'gate'],
  ['heatInput', 'outside', 'gate', 'gate'],
  ['heatInput', 'cannotSay', 'gate', 'gate'],
  ['thickness', 'cannotSay', 'gate', 'gate'],
  ['preheat', 'outside', 'refuse', 'refuse'],
  ['preheat', 'cannotSay', 'refuse', 'refuse'],
  ['interpass', 'outside', 'gate', 'gate'],
  ['interpass', 'cannotSay', 'tell', 'tell'],
  ['travel', 'inside', 'pass', 'pass'],
];
it.each(cases)('independent: %s %s: %s, on a coded part %s', (variable, result, uncoded, coded) => {
  expect(fitPolicy({ variable, result, coded: false })).toBe(uncoded);
  expect(fitPolicy({ variable, result, coded: true })).toBe(coded);
});

function line(variable: FitVariable, result: FitResult): FitLine {
  const limits = { given: null, unit: null, min: null, max: null, allowed: null, margin: null };
  return { variable, result, reason: 'inRange', ...limits };
}

it('independent: takes the strongest line of an answer', () => {
  const lines = [line('travel', 'inside'), line('interpass', 'cannotSay')];
  expect(strength({ result: 'cannotSay', lines }, { coded: false })).toBe('tell');
  const thick = { result: 'outside' as const, lines: [...lines, line('thickness', 'outside')] };
  expect(strength(thick, { coded: false })).toBe('gate');
  expect(strength(thick, { coded: true })).toBe('refuse');
});

it('independent: does not pass when nothing was checked', () => {
  expect(strongest([])).toBe('gate');
  expect(strongest(['pass', 'pass'])).toBe('pass');
});

it('independent: does what the row of the shop says', () => {
  const row = { outside: 'refuse', outsideCoded: 'refuse', cannotSay: 'refuse' } as const;
  const table = {
    procedure: { ...startingPolicy.procedure, travel: row },
    person: { ...startingPolicy.person, runs: row },
  };
  expect(fitPolicy({ variable: 'travel', result: 'outside', coded: false, table })).toBe('refuse');
  expect(fitPolicy({ variable: 'travel', result: 'inside', coded: true, table })).toBe('pass');
  expect(fitPolicy({ variable: 'voltage', result: 'outside', coded: false, table })).toBe('gate');
  expect(personPolicy({ variable: 'runs', result: 'cannotSay', coded: false, table })).toBe(
    'refuse',
  );
});

it('independent: starts above the floor everywhere, and names what falls below it', () => {
  const { procedure, person } = startingPolicy;
  for (const variable of Object.keys(procedure) as (keyof typeof procedure)[])
    expect(
      laxAnswers(procedure[variable], policyFloor({ subject: 'procedure', variable })),
    ).toEqual([]);
  for (const variable of Object.keys(person) as (keyof typeof person)[])
    expect(laxAnswers(person[variable], policyFloor({ subject: 'person', variable }))).toEqual([]);

  const lax = { outside: 'tell', outsideCoded: 'gate', cannotSay: 'pass' } as const;
  const floorOf = (variable: FitVariable) => policyFloor({ subject: 'procedure', variable });
  expect(laxAnswers(lax, floorOf('travel'))).toEqual(['outside', 'cannotSay']);
  expect(laxAnswers(lax, floorOf('preheat'))).toEqual(['outside', 'outsideCoded', 'cannotSay']);
  const standing = policyFloor({ subject: 'person', variable: 'confirmation' });
  expect(laxAnswers({ ...lax, outside: 'gate', cannotSay: 'gate' }, standing)).toEqual([
    'outsideCoded',
  ]);
});
