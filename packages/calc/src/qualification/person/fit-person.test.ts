import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../validity/dates.js';
import { personPolicy } from '../policy.js';
import type {
  PersonAnswer,
  PersonCell,
  PersonCertificate,
  PersonFacts,
  PersonVariable,
  PersonWeld,
} from './facts.js';
import { fitCertificate, fitPerson } from './fit-person.js';

/** Invented certificates, weld and cells; every variable inside. */
const welder: PersonCertificate = {
  number: 'Q-07',
  kind: 'welder',
  code: 'EN ISO 9606-1',
  processes: ['135', '138'],
  transfers: ['D', 'G', 'S', 'P'],
  jointTypes: ['fillet'],
  positions: ['PA', 'PB'],
  filletPositions: null,
  thicknessMm: { min: 3, max: null },
  diameterMm: null,
  materialGroups: [],
  fillerGroups: ['FM1', 'FM2'],
  unit: null,
  functionTestOn: null,
  runs: [],
  jointSensor: null,
  arcSensor: null,
  testedOn: '2025-03-10',
  route: 'retest',
  validUntil: '2028-03-09',
  confirmedUntil: '2027-01-02',
  revokedOn: null,
};
const operator: PersonCertificate = {
  ...welder,
  number: 'O-03',
  kind: 'operator',
  code: 'ISO 14732',
  processes: ['135'],
  unit: 'R1',
  functionTestOn: '2025-03-10',
  runs: ['single', 'multi'],
  jointSensor: true,
  arcSensor: false,
};
const weld: PersonWeld = {
  code: 'EN 1090-2',
  process: '135',
  transfer: 'S',
  jointType: 'fillet',
  position: 'PB',
  thicknessesMm: [6, 8],
  depositedMm: null,
  product: 'plate',
  diameterMm: null,
  materialGroups: ['1.2', '1.2'],
  fillerGroup: 'FM1',
  runs: 'single',
};
const booth: PersonCell = {
  mechanisation: 'partlyMechanised',
  unit: 'B1',
  jointSensor: null,
  arcSensor: null,
};
const robot: PersonCell = {
  mechanisation: 'automatic',
  unit: 'R1',
  jointSensor: true,
  arcSensor: false,
};
const atBooth: PersonFacts = { weld, cell: booth, role: 'welds', day: '2026-10-05' };
const atRobot: PersonFacts = { ...atBooth, cell: robot, role: 'adjusts' };

function lineOf(answer: PersonAnswer, variable: PersonVariable) {
  const line = answer.lines.find((each) => each.variable === variable);
  if (!line) throw new Error(`no line for ${variable}`);
  return line;
}
const welding = (given: Partial<PersonWeld>, own: Partial<PersonCertificate> = {}) =>
  fitCertificate({ ...welder, ...own }, { ...atBooth, weld: { ...weld, ...given } });

describe('independent: a welder at a booth, against lines worked by hand', () => {
  it('is inside with one line per variable, clause beside it', () => {
    const answer = fitCertificate(welder, atBooth);
    expect(answer.result).toBe('inside');
    expect(answer.lines.map(({ variable, clause }) => [variable, clause])).toEqual([
      ['code', null],
      ['mechanisation', '1'],
      ['validity', '9.3'],
      ['confirmation', '9.2'],
      ['process', '5.2'],
      ['transfer', '5.2'],
      ['jointType', '5.4'],
      ['position', '5.8'],
      ['thickness', '5.7'],
      ['diameter', '5.3, 5.7'],
      ['materialGroup', '1'],
      ['fillerGroup', '5.5'],
    ]);
  });

  // ISO 9606-1 variables as in the digest of its tables; the certificate's printed ranges decide.
  it.each<[PersonVariable, Partial<PersonWeld>, string]>([
    ['code', { code: 'AWS D1.1:2020' }, 'otherCode'],
    ['process', { process: '136' }, 'notListed'],
    ['jointType', { jointType: 'butt' }, 'notListed'],
    ['position', { position: 'PF' }, 'notListed'],
    ['thickness', { thicknessesMm: [6, 2.5] }, 'belowMin'],
    ['fillerGroup', { fillerGroup: 'FM5' }, 'notListed'],
  ])('is outside by %s', (variable, given, reason) => {
    const answer = welding(given);
    expect(lineOf(answer, variable)).toMatchObject({ result: 'outside', reason });
    expect(answer.result).toBe('outside');
  });

  it('shows the numbers and the distance', () => {
    expect(lineOf(welding({ thicknessesMm: [6, 2.5] }), 'thickness')).toMatchObject({
      given: 2.5,
      unit: 'mm',
      min: 3,
      max: null,
      margin: -0.5,
    });
  });

  it('is judged by the metal laid in a butt weld, and cannot be told without it', () => {
    const butt = { jointTypes: ['butt'], thicknessMm: { min: 3, max: 20 } };
    const laid = (depositedMm: number | null) =>
      lineOf(welding({ jointType: 'butt', depositedMm }, butt), 'thickness').result;
    expect([4, 25, null].map(laid)).toEqual(['inside', 'outside', 'cannotSay']);
  });

  it('is judged by pipe diameter on pipe, and by plate on plate', () => {
    const on = (given: Partial<PersonWeld>, diameterMm: PersonCertificate['diameterMm']) =>
      lineOf(welding(given, { diameterMm }), 'diameter').result;
    const pipe = (diameterMm: number | null) => ({ product: 'pipe', diameterMm }) as const;
    expect(on(pipe(60), { min: 30.15, max: null })).toBe('inside');
    expect(on(pipe(20), { min: 30.15, max: null })).toBe('outside');
    expect(on(pipe(null), { min: 30.15, max: null })).toBe('cannotSay');
    expect(on(pipe(600), null)).toBe('cannotSay');
    expect(on({ product: 'plate' }, { min: 30.15, max: null })).toBe('inside');
    expect(on({ product: 'plate' }, { min: 20, max: 40 })).toBe('cannotSay');
    expect(on({ product: null }, null)).toBe('cannotSay');
  });

  it('is asked about aluminium', () => {
    expect(lineOf(welding({ materialGroups: ['22.3'] }), 'materialGroup')).toMatchObject({
      result: 'cannotSay',
      reason: 'otherStandard',
    });
  });
});

describe('the day', () => {
  const on = (day: string, own: Partial<PersonCertificate> = {}) =>
    fitCertificate({ ...welder, ...own }, { ...atBooth, day });
  it('holds to the last day of the confirmation (9.2), with the days left', () => {
    expect(lineOf(on('2027-01-02'), 'confirmation')).toMatchObject({ result: 'inside', margin: 0 });
    expect(lineOf(on('2027-01-03'), 'confirmation')).toMatchObject({
      result: 'outside',
      reason: 'lapsed',
      margin: -1,
      unit: 'days',
    });
    expect(lineOf(on('2026-10-05', { confirmedUntil: null }), 'confirmation').result).toBe(
      'outside',
    );
  });
  it('holds to the last day before renewal, not before the test, not once revoked', () => {
    expect(lineOf(on('2028-03-10'), 'validity')).toMatchObject({ reason: 'lapsed', margin: -1 });
    expect(lineOf(on('2025-03-09'), 'validity').reason).toBe('beforeTest');
    expect(lineOf(on('2026-10-05', { revokedOn: '2026-10-05' }), 'validity').reason).toBe(
      'revoked',
    );
    expect(lineOf(on('2026-02-30'), 'validity').result).toBe('cannotSay');
  });
  it('runs on where no last day is printed only if the way of renewal is open-ended', () => {
    expect(lineOf(on('2026-10-05', { validUntil: null }), 'validity').result).toBe('cannotSay');
    const open = { validUntil: null, route: 'openEnded' } as const;
    expect(lineOf(on('2026-10-05', open), 'validity').result).toBe('inside');
  });
});

describe('a robot cell', () => {
  it('is open to an operator or setter whose certificate is bound to it', () => {
    expect(fitCertificate(operator, atRobot).result).toBe('inside');
    expect(fitCertificate({ ...operator, kind: 'setter' }, atRobot).result).toBe('inside');
  });
  it.each<[PersonVariable, Partial<PersonCertificate>, string, string]>([
    ['unit', { unit: 'R2' }, 'outside', 'notListed'],
    ['unit', { unit: null }, 'cannotSay', 'rangeMissing'],
    ['functionTest', { functionTestOn: null }, 'cannotSay', 'valueMissing'],
    ['functionTest', { functionTestOn: '2026-10-06' }, 'outside', 'beforeTest'],
    ['jointSensor', { jointSensor: false }, 'outside', 'notListed'],
    ['arcSensor', { arcSensor: null }, 'cannotSay', 'rangeMissing'],
  ])('is closed by %s %o', (variable, own, result, reason) => {
    const answer = fitCertificate({ ...operator, ...own }, atRobot);
    expect(lineOf(answer, variable)).toMatchObject({ result, reason });
    expect(answer.result).toBe(result);
  });
  it('iso14732-multirun (direction from memory, medium): single-run does not hold multi-run', () => {
    const multi = { ...atRobot, weld: { ...weld, runs: 'multi' } } as const;
    expect(fitCertificate({ ...operator, runs: ['single'] }, multi).result).toBe('outside');
    expect(fitCertificate(operator, multi).result).toBe('inside');
  });
  it('is never open to a certificate for welding by hand, whatever it prints', () => {
    const answer = fitPerson([{ ...welder, unit: 'R1', functionTestOn: '2025-03-10' }], atRobot);
    expect(lineOf(answer, 'mechanisation')).toMatchObject({
      result: 'outside',
      reason: 'manualCertificate',
    });
    expect(answer.result).toBe('outside');
  });
  it('printed: iso14732-loader (scope; DIS 2024, high): who only loads needs no certificate, who adjusts does', () => {
    expect(fitPerson([], { ...atRobot, role: 'loads' })).toMatchObject({
      result: 'inside',
      needed: false,
    });
    expect(fitPerson([], atRobot)).toMatchObject({ result: 'outside', needed: true });
    expect(fitPerson([operator], { ...atRobot, role: null }).result).toBe('cannotSay');
  });
});

describe('several certificates', () => {
  it('answers by the one that covers, else by the nearest', () => {
    const lapsed = { ...welder, number: 'Q-01', confirmedUntil: '2026-09-30' };
    expect(fitPerson([lapsed, operator, welder], atBooth)).toMatchObject({
      result: 'inside',
      certificate: 'Q-07',
    });
    expect(fitPerson([operator, lapsed], atBooth)).toMatchObject({
      result: 'outside',
      certificate: 'Q-01',
    });
  });
  it('never adds two certificates up', () => {
    const thin = { ...welder, thicknessMm: { min: 1, max: 5 } };
    const overhead = { ...welder, thicknessMm: { min: 10, max: null } };
    expect(fitPerson([thin, overhead], atBooth).result).toBe('outside');
  });
});

describe('other codes', () => {
  const asme = { ...welder, code: 'ASME IX', positions: ['F', 'H'], materialGroups: ['P1'] };
  it('judge a job of their own family only', () => {
    const us = {
      ...atBooth,
      weld: { ...weld, code: 'ASME IX', position: 'H', materialGroups: ['P1'] },
    };
    expect(fitCertificate({ ...asme, fillerGroups: ['FM1'] }, us).result).toBe('inside');
    expect(fitCertificate(welder, us).result).toBe('outside');
    expect(fitCertificate(asme, atBooth).result).toBe('outside');
  });
  it('cannot be told where there are no rules for them', () => {
    const old = fitCertificate({ ...welder, code: 'EN 287-1' }, atBooth);
    expect(lineOf(old, 'code')).toMatchObject({ result: 'cannotSay', reason: 'rulesMissing' });
    expect(old.result).not.toBe('inside');
  });
});

describe('a missing input', () => {
  const blankWeld: Record<keyof PersonWeld, null | readonly string[]> = {
    ...{ code: null, process: null, transfer: null, jointType: null, position: null },
    ...{ thicknessesMm: [], product: null, materialGroups: [], fillerGroup: null },
    ...{ depositedMm: null, diameterMm: null, runs: null },
  };
  const neededByBooth = Object.keys(blankWeld).filter(
    (key) => !['depositedMm', 'diameterMm', 'runs'].includes(key),
  );
  it('of the weld or the certificate is never inside', () => {
    fc.assert(
      fc.property(fc.subarray(neededByBooth, { minLength: 1 }), (keys) => {
        const lost = Object.fromEntries(
          keys.map((key) => [key, blankWeld[key as keyof PersonWeld]]),
        );
        expect(welding(lost).result).not.toBe('inside');
      }),
    );
    const blank = { processes: [], transfers: [], jointTypes: [], positions: [], fillerGroups: [] };
    const printed: Partial<PersonCertificate>[] = [
      ...Object.keys(blank).map((key) => ({ [key]: [] })),
      { thicknessMm: null },
      { validUntil: null },
      { confirmedUntil: null },
    ];
    for (const own of printed) expect(welding({}, own).result).not.toBe('inside');
  });
});

describe('a wider demand', () => {
  const answerOrder = ['outside', 'cannotSay', 'inside'];
  const mm = fc.double({ min: 0.5, max: 40, noNaN: true });
  const certificate = fc
    .record({ min: fc.option(mm, { nil: null }), max: fc.option(mm, { nil: null }) })
    .map((thicknessMm) => ({ ...welder, thicknessMm }));

  it('by one more part never answers better', () => {
    fc.assert(
      fc.property(certificate, fc.array(mm, { minLength: 1 }), mm, (own, parts, more) => {
        const [few, many] = [parts, [...parts, more]].map((thicknessesMm) =>
          fitCertificate(own, { ...atBooth, weld: { ...weld, thicknessesMm } }),
        );
        expect(answerOrder.indexOf(many?.result ?? '')).toBeLessThanOrEqual(
          answerOrder.indexOf(few?.result ?? ''),
        );
      }),
    );
  });

  it('and a narrower certificate never answer better, and a later day never does', () => {
    const less = fc.subarray(welder.positions as string[]);
    const days = fc.tuple(fc.integer({ min: 0, max: 900 }), fc.integer({ min: 0, max: 900 }));
    fc.assert(
      fc.property(less, days, (positions, [first, later]) => {
        const full = lineOf(fitCertificate(welder, atBooth), 'position').result;
        const narrow = lineOf(fitCertificate({ ...welder, positions }, atBooth), 'position').result;
        expect(answerOrder.indexOf(narrow)).toBeLessThanOrEqual(answerOrder.indexOf(full));
        const [soon, late] = [first, first + later].map(
          (by) =>
            fitCertificate(welder, { ...atBooth, day: addDays('2025-03-10', by) ?? '' }).result,
        );
        expect(answerOrder.indexOf(late ?? '')).toBeLessThanOrEqual(
          answerOrder.indexOf(soon ?? ''),
        );
      }),
    );
  });
});

it('independent: stops at what is outside, and tells where few certificates print anything (the shop’s own rule)', () => {
  const of = (
    variable: PersonVariable,
    result: 'outside' | 'cannotSay' | 'inside',
    coded = false,
  ) => personPolicy({ variable, result, coded });
  expect(of('position', 'outside')).toBe('gate');
  expect(of('position', 'outside', true)).toBe('refuse');
  expect(of('position', 'cannotSay', true)).toBe('gate');
  expect(of('arcSensor', 'cannotSay')).toBe('tell');
  expect(of('arcSensor', 'outside')).toBe('gate');
  expect(of('validity', 'inside')).toBe('pass');
});
