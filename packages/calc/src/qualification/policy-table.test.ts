import { expect, it } from 'vitest';
import { clausesFor } from './person/variables.js';
import { personPolicy, policyFloor, startingPolicy, strength, strongest } from './policy.js';

/** As `outside / outside on a coded part / cannot say`. */
const told = (rows: object) =>
  Object.fromEntries(
    Object.entries(rows as typeof startingPolicy.person).map(
      ([variable, { outside, outsideCoded, cannotSay }]) => [
        variable,
        `${outside} / ${outsideCoded} / ${cannotSay}`,
      ],
    ),
  );
const all = (variables: readonly string[], words: string) =>
  Object.fromEntries(variables.map((variable) => [variable, words]));

it('pinned: what a shop starts with stops a weld outside its procedure, and refuses a coded one', () => {
  const covered = ['process', 'materialGroup', 'thickness', 'jointType', 'throat', 'position'];
  const gated = ['mechanisation', 'wireDiameter', 'filler', 'gas', 'current', 'voltage'];
  expect(told(startingPolicy.procedure)).toEqual({
    ...all(covered, 'gate / refuse / gate'),
    yield: 'gate / refuse / tell',
    ...all([...gated, 'wireSpeed', 'travel', 'heatInput'], 'gate / gate / gate'),
    ...{ preheat: 'refuse / refuse / refuse', interpass: 'gate / gate / tell' },
  });
  const shown = ['transfer', 'fillerGroup', 'runs', 'jointSensor', 'arcSensor'];
  const asked = ['role', 'certificate', 'code', 'mechanisation', 'validity', 'confirmation'];
  const ranged = ['process', 'jointType', 'position', 'thickness', 'diameter', 'materialGroup'];
  expect(told(startingPolicy.person)).toEqual({
    ...all([...asked, ...ranged, 'unit', 'functionTest'], 'gate / refuse / gate'),
    ...all(shown, 'gate / refuse / tell'),
  });
});

it('pinned: no shop may be laxer than its floor', () => {
  const person = (variable: 'certificate' | 'validity' | 'confirmation' | 'process') =>
    policyFloor({ subject: 'person', variable });
  const least = { outside: 'gate', outsideCoded: 'gate', cannotSay: 'tell' };
  const standing = { outside: 'gate', outsideCoded: 'refuse', cannotSay: 'gate' };
  for (const variable of ['certificate', 'validity', 'confirmation'] as const)
    expect(person(variable)).toEqual(standing);
  expect(person('process')).toEqual(least);
  expect(policyFloor({ subject: 'procedure', variable: 'gas' })).toEqual(least);
  expect(policyFloor({ subject: 'procedure', variable: 'preheat' })).toEqual({
    ...{ outside: 'refuse', outsideCoded: 'refuse', cannotSay: 'refuse' },
  });
});

it('takes the strongest of several answers, and stops where nothing was checked', () => {
  expect(strongest(['pass', 'tell', 'gate', 'refuse'])).toBe('refuse');
  expect(strongest(['pass', 'tell', 'gate'])).toBe('gate');
  expect(strongest(['pass', 'tell'])).toBe('tell');
  expect(strongest(['pass'])).toBe('pass');
  expect(strongest([])).toBe('gate');
  const line = { variable: 'process', result: 'outside', coded: true } as const;
  expect([personPolicy(line), personPolicy({ ...line, coded: false })]).toEqual(['refuse', 'gate']);
  expect(
    strength({ lines: [] } as unknown as Parameters<typeof strength>[0], { coded: true }),
  ).toBe('gate');
});

it('pinned: names the clause of each variable by which a certificate is judged', () => {
  expect(clausesFor('welder', 'ISO 9606-1')).toEqual({
    ...{ code: '1', mechanisation: '1', validity: '9.3', confirmation: '9.2', process: '5.2' },
    ...{ transfer: '5.2', jointType: '5.4', position: '5.8', thickness: '5.7' },
    ...{ diameter: '5.3, 5.7', materialGroup: '1', fillerGroup: '5.5' },
  });
  expect(clausesFor('welder', 'ASME IX')).toEqual({
    ...{ code: 'QW-300', mechanisation: 'QW-300', validity: 'QW-322', confirmation: 'QW-322.1' },
    ...{ process: 'QW-350', transfer: 'QW-409.2', jointType: 'QW-452.6', position: 'QW-461.9' },
    ...{ thickness: 'QW-452.1(b)', diameter: 'QW-452.3', materialGroup: 'QW-423' },
    fillerGroup: 'QW-433',
  });
  expect(clausesFor('welder', 'AWS D1.1')).toEqual({
    ...{ code: '6.1', mechanisation: '6.1', validity: '6.2.3', confirmation: '6.2.3' },
    ...{ process: 'Table 6.12', jointType: 'Table 6.10', position: 'Table 6.10' },
    ...{ thickness: 'Table 6.11', diameter: 'Table 6.10' },
  });
  expect(clausesFor('operator', 'ISO 14732')).toEqual({
    ...{ code: '1', mechanisation: '1', validity: '5', confirmation: '5', process: '4.2' },
    ...{ unit: '4.2', functionTest: '4, Annex A', runs: '4.2', jointSensor: '4.2' },
    ...{ arcSensor: '4.2', position: '4.2' },
  });
  expect(clausesFor('operator', 'ISO 9606-1')).toBeNull();
  expect(clausesFor('welder', 'ISO 14732')).toBeNull();
});
