import { describe, expect, it } from 'vitest';
import { startingPolicy, type FitLine } from '@tackboard/calc';
import type { CertificateFacts } from './facts.js';
import { fitWords } from './fit-words.js';
import { lapseWords } from './lapse-words.js';
import { personLine, qualifiedPeople, type PersonRuleFacts } from './person-rule.js';

const today = '2026-10-05';

describe('lapseWords', () => {
  const valid = {
    ...{ code: 'ISO 9606-1', renewalRoute: null, testedOn: '2025-09-01' },
    ...{ revokedOn: null, validUntil: '2028-01-01', confirmedOn: '2026-08-12' },
  };
  // Six-monthly confirmation: ISO 9606-1 and ISO 14732, from memory; short months end on their last day.
  it.each([
    [{}, null],
    [{ confirmedOn: '2026-04-05' }, null],
    [{ confirmedOn: '2026-04-04' }, 'confirmation ended 4 Oct 2026, 1 day ago'],
    [{ confirmedOn: '2026-03-30' }, 'confirmation ended 30 Sep 2026, 5 days ago'],
    [{ confirmedOn: null }, 'not confirmed by the coordinator yet'],
    [{ validUntil: '2026-10-05' }, null],
    [{ validUntil: '2026-10-01' }, 'ended 1 Oct 2026, 4 days ago'],
    [{ revokedOn: '2026-10-05' }, 'withdrawn on 5 Oct 2026'],
    [{ revokedOn: '2026-10-06' }, null],
  ])('%o: %s', (change, words) => {
    expect(lapseWords({ ...valid, ...change }, today)).toBe(words);
  });

  it('ends a confirmation of 31 August with the last day of February', () => {
    const given = { ...valid, confirmedOn: '2026-08-31' };
    expect(lapseWords(given, '2027-02-28')).toBeNull();
    expect(lapseWords(given, '2027-03-01')).toContain('28 Feb 2027');
  });
});

describe('person rule', () => {
  const person = { id: 'w', code: 'W07', name: 'Wanda Kestelholm' };
  const own: CertificateFacts = {
    ...{ id: 'c1', personId: 'w', personCode: 'W07', personName: 'Wanda Kestelholm' },
    ...{ kind: 'welder', number: 'C-1', code: 'ISO 9606-1', process: '135', cellId: null },
    ...{ materialGroups: [], fillerGroups: [], testedOn: '2025-09-01', renewalRoute: null },
    functionTestOn: null,
    ...{ jointTypes: ['fillet'], positions: ['PA', 'PB'], thicknessMinMm: 3, thicknessMaxMm: 12 },
    ...{ validUntil: '2028-08-31', revokedOn: null, confirmedOn: '2026-08-12' },
  };
  const weld = {
    ...({ number: 1, process: '135', jointType: 'fillet', position: 'PB' } as const),
    ...{ thicknessAMm: 6, thicknessBMm: 12 },
  };
  const facts: PersonRuleFacts = {
    ...{ person, certificates: [own], coded: false, welds: [weld], today },
    policy: startingPolicy,
    cell: { id: 'm1', code: 'M1', kind: 'booth' },
  };
  const line = (change: Partial<PersonRuleFacts>) => personLine({ ...facts, ...change });
  const robot = { id: 'r1', code: 'R1', kind: 'robot' } as const;

  it('passes inside the ranges, limits included', () => {
    expect(line({})).toMatchObject({ rule: 'person', strength: 'pass' });
  });

  it.each([
    [{ process: '136' }, 'process 136 is outside 135'],
    [{ jointType: 'butt' as const }, 'joint butt is outside fillet'],
    [{ position: 'PF' as const }, 'position PF is outside PA, PB'],
    [{ thicknessBMm: 12.1 }, 'thickness 12.1 mm is outside 3 to 12 mm'],
    [{ thicknessAMm: 2.9 }, 'thickness 2.9 mm is outside 3 to 12 mm'],
  ])('names what lies outside: %o', (change, words) => {
    const answer = line({ welds: [{ ...weld, ...change }] });
    expect(answer.strength).toBe('gate');
    expect(answer.text).toContain(`weld 1: ${words} of certificate C-1`);
  });

  it('counts each weld by itself: two certificates may share the work', () => {
    const upwards: CertificateFacts = { ...own, number: 'C-2', positions: ['PF'] };
    const welds = [weld, { ...weld, number: 2, position: 'PF' as const }];
    expect(line({ welds }).strength).toBe('gate');
    expect(line({ welds, certificates: [own, upwards] }).strength).toBe('pass');
  });

  it('speaks of the certificate that lapsed, not of another that never held the weld', () => {
    const lapsed = { ...own, confirmedOn: '2026-01-01' };
    const other = { ...own, number: 'C-3', process: '141' };
    const answer = line({ certificates: [other, lapsed] });
    expect(answer.text).toContain('certificate C-1: confirmation ended 1 Jul 2026');
  });

  it('refuses on a coded part what it gates on another', () => {
    expect(line({ certificates: [], coded: true }).strength).toBe('refuse');
    expect(line({ certificates: [] }).text).toContain('Nobody is qualified for it today.');
  });

  it('counts at a robot only a certificate for that robot', () => {
    const operator: CertificateFacts = {
      ...own,
      ...{ kind: 'operator', code: 'ISO 14732', cellId: 'r1', functionTestOn: '2025-09-01' },
    };
    expect(line({ cell: robot }).strength).toBe('gate');
    expect(line({ cell: robot, certificates: [{ ...operator, cellId: 'r2' }] }).strength).toBe(
      'gate',
    );
    expect(line({ cell: robot, certificates: [operator] }).strength).toBe('pass');
    expect(line({ certificates: [operator] }).strength).toBe('gate');
  });

  it('names who could, by code', () => {
    const others = ['O09', 'O03'].map((code) => ({ ...own, personId: code, personCode: code }));
    const certificates = [...others, { ...own, confirmedOn: null }];
    expect(qualifiedPeople({ ...facts, certificates }).map(({ code }) => code)).toEqual([
      ...['O03', 'O09'],
    ]);
    expect(line({ certificates }).text).toContain('Qualified today: O03');
  });
});

describe('fitWords', () => {
  const judged: FitLine = {
    ...{ variable: 'travel', result: 'outside', given: 300, unit: 'mm/min', min: 450, max: 600 },
    ...{ allowed: null, margin: -150, reason: 'belowMin' },
  };
  it.each<[Partial<FitLine>, string]>([
    [{}, 'travel 300 mm/min is below 450'],
    [
      { given: 1.2544, variable: 'heatInput', unit: 'kJ/mm', max: 0.95, reason: 'aboveMax' },
      'heat input 1.254 kJ/mm is above 0.95',
    ],
    [
      { given: null, reason: 'valueMissing' },
      'travel: nothing is given, allowed is 450 to 600 mm/min',
    ],
    [
      { variable: 'preheat', unit: 'degC', given: 85, min: 100, max: null, reason: 'tooCold' },
      'preheat 85 °C is below 100',
    ],
    [
      { variable: 'gas', given: 'C1', unit: null, allowed: ['M21', 'M20'], reason: 'notListed' },
      'gas C1 is not among M21, M20',
    ],
    [{ reason: 'rangeMissing' }, 'travel: the procedure states no range'],
  ])('%o: %s', (change, words) => {
    expect(fitWords({ ...judged, ...change })).toBe(words);
  });
});
