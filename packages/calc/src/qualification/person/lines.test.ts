import { describe, expect, it } from 'vitest';
import type {
  PersonCell,
  PersonCertificate,
  PersonFacts,
  PersonVariable,
  PersonWeld,
} from './facts.js';
import { fitCertificate, fitPerson } from './fit-person.js';

/** Invented: a certificate that holds all of the weld under every code. */
const certificate: PersonCertificate = {
  ...{ number: 'Q-07', kind: 'welder', code: 'ISO 9606-1' },
  ...{ processes: ['135', '136'], transfers: ['D', 'S'], jointTypes: ['fillet', 'butt'] },
  ...{ positions: ['PA', 'PB'], filletPositions: ['PF'] },
  ...{ thicknessMm: { min: 3, max: 12 }, diameterMm: null },
  ...{ materialGroups: ['P1'], fillerGroups: ['FM1'] },
  ...{ unit: 'R1', functionTestOn: '2025-03-10', runs: ['single'] },
  ...{ jointSensor: true, arcSensor: false, testedOn: '2025-03-10', route: 'retest' },
  ...{ validUntil: '2028-03-09', confirmedUntil: '2027-01-02', revokedOn: null },
};
const weld: PersonWeld = {
  ...{ code: 'ISO 9606-1', process: '135', transfer: 'S', jointType: 'fillet', position: 'PF' },
  ...{ thicknessesMm: [6, 8], depositedMm: 5, product: 'plate', diameterMm: null },
  ...{ materialGroups: ['1.2', '1.2'], fillerGroup: 'FM1', runs: 'single' },
};
const cell: PersonCell = {
  ...{ mechanisation: 'partlyMechanised', unit: 'R1', jointSensor: true, arcSensor: false },
};
const facts: PersonFacts = { weld, cell, role: 'welds', day: '2026-10-05' };

interface Given {
  own?: Partial<PersonCertificate>;
  weld?: Partial<PersonWeld>;
  cell?: Partial<PersonCell>;
  day?: string;
}
function answerOf({ own = {}, weld: ofWeld = {}, cell: ofCell = {}, day = facts.day }: Given) {
  return fitCertificate(
    { ...certificate, ...own },
    { ...facts, day, weld: { ...weld, ...ofWeld }, cell: { ...cell, ...ofCell } },
  );
}
/** One line in words: "inside listed: S" */
function line(variable: PersonVariable, given: Given): string {
  const found = answerOf(given).lines.find((each) => each.variable === variable);
  return found === undefined ? 'none' : `${found.result} ${found.reason}: ${String(found.given)}`;
}
const underCode = (code: string): Given => ({ own: { code }, weld: { code } });

describe('independent: the lines of one certificate, by hand from the rules of its code', () => {
  it('is inside as a whole', () => {
    expect(answerOf({})).toMatchObject({ result: 'inside', needed: true, certificate: 'Q-07' });
  });
  it.each<[PersonVariable, Given, string]>([
    ['transfer', {}, 'inside listed: S'],
    ['transfer', { weld: { transfer: 'G' } }, 'outside notListed: G'],
    ['transfer', { weld: { transfer: null } }, 'cannotSay valueMissing: null'],
    ['transfer', { weld: { process: '136', transfer: null } }, 'inside notAVariable: null'],
    ['transfer', { weld: { process: 'x', transfer: null } }, 'cannotSay valueMissing: null'],
    ['transfer', { weld: { process: null } }, 'inside listed: S'],
    ['transfer', { weld: { process: 'GMAW-S', transfer: null } }, 'inside listed: D'],
    ['transfer', { weld: { process: 'GMAW-S', transfer: 'S' } }, 'inside listed: D'],
    ['transfer', { own: { transfers: ['S'] }, weld: { transfer: 'D' } }, 'outside notListed: D'],
    ['position', {}, 'inside listed: PF'],
    ['position', { weld: { position: 'PA' } }, 'outside notListed: PA'],
    ['position', { weld: { jointType: 'butt' } }, 'outside notListed: PF'],
    ['position', { weld: { jointType: 'butt', position: 'PA' } }, 'inside listed: PA'],
    ['position', { own: { filletPositions: null } }, 'outside notListed: PF'],
    ['thickness', {}, 'inside inRange: 6'],
    ['thickness', { weld: { jointType: 'butt' } }, 'inside inRange: 5'],
    ['thickness', { weld: { jointType: 'butt', depositedMm: 13 } }, 'outside aboveMax: 13'],
    ['thickness', { weld: { jointType: null } }, 'cannotSay valueMissing: null'],
    ['thickness', underCode('ASME IX'), 'inside notAVariable: null'],
    [
      'thickness',
      { ...underCode('ASME IX'), weld: { code: 'ASME IX', jointType: 'butt', depositedMm: 13 } },
      'outside aboveMax: 13',
    ],
    [
      'thickness',
      { ...underCode('AWS D1.1'), weld: { code: 'AWS D1.1', jointType: 'butt' } },
      'inside inRange: 6',
    ],
    ['diameter', {}, 'inside notAVariable: plate'],
    [
      'diameter',
      { own: { code: 'ASME IX', diameterMm: { min: 25, max: null } }, weld: { code: 'ASME IX' } },
      'cannotSay rangeMissing: plate',
    ],
    ['diameter', { own: { diameterMm: { min: 25, max: null } } }, 'inside notAVariable: plate'],
    ['diameter', { own: { diameterMm: { min: 25, max: 50 } } }, 'cannotSay rangeMissing: plate'],
    ['materialGroup', {}, 'inside notAVariable: 1.2 + 1.2'],
    [
      'materialGroup',
      { weld: { materialGroups: ['11.1', ' 9 '] } },
      'inside notAVariable: 11.1 +  9 ',
    ],
    ['materialGroup', { weld: { materialGroups: ['10.12'] } }, 'inside notAVariable: 10.12'],
    ['materialGroup', { weld: { materialGroups: ['12.1'] } }, 'cannotSay valueMissing: 12.1'],
    ['materialGroup', { weld: { materialGroups: ['1.2x'] } }, 'cannotSay valueMissing: 1.2x'],
    [
      'materialGroup',
      { weld: { materialGroups: ['1.2', '31'] } },
      'cannotSay valueMissing: 1.2 + 31',
    ],
    [
      'materialGroup',
      { weld: { materialGroups: ['1.2', '22.3'] } },
      'cannotSay otherStandard: 1.2 + 22.3',
    ],
    ['materialGroup', { weld: { materialGroups: [] } }, 'cannotSay valueMissing: null'],
    [
      'materialGroup',
      { ...underCode('ASME IX'), weld: { code: 'ASME IX', materialGroups: ['P8'] } },
      'outside notListed: P8',
    ],
    ['fillerGroup', { weld: { fillerGroup: 'FM5' } }, 'outside notListed: FM5'],
    ['fillerGroup', underCode('AWS D1.1'), 'none'],
    ['code', { weld: { code: null } }, 'cannotSay valueMissing: null'],
    ['code', { own: { code: 'EN 287-1' } }, 'cannotSay rulesMissing: ISO 9606-1'],
    ['code', { own: { code: 'ISO 9606-2' } }, 'cannotSay rulesMissing: ISO 9606-1'],
    ['code', { own: { code: 'AWS D1.1' } }, 'outside otherCode: ISO 9606-1'],
    ['mechanisation', { cell: { mechanisation: 'manual' } }, 'inside listed: manual'],
    [
      'mechanisation',
      { cell: { mechanisation: 'automatic' } },
      'outside manualCertificate: automatic',
    ],
    [
      'mechanisation',
      { cell: { mechanisation: 'fullyMechanised' } },
      'outside manualCertificate: fullyMechanised',
    ],
    ['mechanisation', { cell: { mechanisation: null } }, 'cannotSay valueMissing: null'],
    ['mechanisation', { cell: { mechanisation: 'by magic' } }, 'cannotSay valueMissing: by magic'],
    ['mechanisation', { own: { kind: 'setter' } }, 'outside operatorCertificate: partlyMechanised'],
    ['validity', { day: '2028-03-09' }, 'inside inRange: 2028-03-09'],
    ['validity', { day: '2028-03-10' }, 'outside lapsed: 2028-03-10'],
    ['validity', { day: '2025-03-10' }, 'inside inRange: 2025-03-10'],
    ['validity', { day: '2025-03-09' }, 'outside beforeTest: 2025-03-09'],
    ['validity', { own: { revokedOn: '2026-10-05' } }, 'outside revoked: 2026-10-05'],
    ['validity', { own: { revokedOn: '2026-10-06' } }, 'inside inRange: 2026-10-05'],
    ['validity', { own: { validUntil: 'soon' } }, 'cannotSay valueMissing: 2026-10-05'],
    ['validity', { own: { testedOn: 'soon' } }, 'cannotSay valueMissing: 2026-10-05'],
    ['validity', { own: { validUntil: null } }, 'cannotSay rangeMissing: 2026-10-05'],
    [
      'validity',
      { own: { validUntil: null, route: 'continuity' } },
      'inside openEnded: 2026-10-05',
    ],
    ['validity', { own: { validUntil: null, route: 'openEnded' } }, 'inside openEnded: 2026-10-05'],
    ['confirmation', {}, 'inside inRange: 2026-10-05'],
    ['confirmation', { own: { confirmedUntil: '2026-10-04' } }, 'outside lapsed: 2026-10-05'],
    ['confirmation', { own: { confirmedUntil: null } }, 'outside lapsed: 2026-10-05'],
    ['confirmation', { own: { confirmedUntil: 'soon' } }, 'cannotSay valueMissing: 2026-10-05'],
  ])('%s of %o: %s', (variable, given, words) => {
    expect(line(variable, given)).toBe(words);
  });

  const robot: Given = {
    own: { kind: 'operator', code: 'ISO 14732' },
    weld: { code: 'ISO 14732' },
    cell: { mechanisation: 'automatic' },
  };
  const atRobot = (given: Given): Given => ({
    ...{ own: { ...robot.own, ...given.own }, weld: { ...robot.weld, ...given.weld } },
    ...{ cell: { ...robot.cell, ...given.cell }, day: given.day ?? facts.day },
  });
  it.each<[PersonVariable, Given, string]>([
    ['functionTest', {}, 'inside listed: 2025-03-10'],
    ['functionTest', { own: { functionTestOn: '2026-10-05' } }, 'inside listed: 2026-10-05'],
    ['functionTest', { own: { functionTestOn: '2026-10-06' } }, 'outside beforeTest: 2026-10-06'],
    ['jointSensor', {}, 'inside listed: with'],
    ['jointSensor', { cell: { jointSensor: false } }, 'outside notListed: without'],
    ['arcSensor', {}, 'inside listed: without'],
    ['arcSensor', { cell: { arcSensor: true } }, 'outside notListed: with'],
    ['arcSensor', { cell: { arcSensor: null } }, 'cannotSay valueMissing: null'],
    ['runs', { weld: { runs: null } }, 'cannotSay valueMissing: null'],
    ['unit', { cell: { unit: 'r1 ' } }, 'inside listed: r1 '],
    ['position', {}, 'none'],
    // ISO 14732: where the machine is not automatic, positions are added by a test only.
    ['position', { cell: { mechanisation: 'fullyMechanised' } }, 'inside listed: PF'],
    [
      'position',
      { cell: { mechanisation: 'fullyMechanised' }, weld: { position: 'PG' } },
      'outside notListed: PG',
    ],
    [
      'position',
      { cell: { mechanisation: 'fullyMechanised' }, own: { positions: [], filletPositions: null } },
      'cannotSay rangeMissing: PF',
    ],
    ['mechanisation', {}, 'inside listed: automatic'],
  ])('at a machine, %s of %o: %s', (variable, given, words) => {
    expect(line(variable, atRobot(given))).toBe(words);
  });

  it('shows the days that are left, and the day they run to', () => {
    const found = answerOf({}).lines.find(({ variable }) => variable === 'confirmation');
    expect(found).toMatchObject({ unit: 'days', margin: 89, allowed: ['2027-01-02'] });
    const bare = answerOf({ own: { revokedOn: '2026-01-01' } }).lines;
    expect(bare.find(({ variable }) => variable === 'validity')).toMatchObject({
      ...{ unit: null, margin: null, allowed: null, min: null, max: null },
    });
  });
});

describe('independent: the person by all certificates, by hand', () => {
  const lines = (given: Partial<PersonFacts>, ...own: Partial<PersonCertificate>[]) => {
    const found = fitPerson(
      own.map((each) => ({ ...certificate, ...each })),
      { ...facts, ...given },
    );
    const of = found.lines.map(({ variable, result, reason }) => `${variable} ${result} ${reason}`);
    return { ...found, lines: of };
  };
  it('needs none to load, and one for all else', () => {
    expect(lines({ role: 'loads' })).toEqual({
      ...{ result: 'inside', needed: false, certificate: null },
      lines: ['role inside notNeeded'],
    });
    expect(lines({ role: 'adjusts' })).toEqual({
      ...{ result: 'outside', needed: true, certificate: null },
      lines: ['certificate outside noCertificate'],
    });
  });
  it('says first that the role is not known', () => {
    const { result, lines: of } = lines({ role: null }, {});
    expect(result).toBe('cannotSay');
    expect(of.slice(0, 2)).toEqual(['role cannotSay valueMissing', 'code inside listed']);
    expect(of).toHaveLength(13);
  });
  it('takes the nearest: inside, then cannot say; then fewer lines outside, then fewer unsure', () => {
    const nearest = (...own: Partial<PersonCertificate>[]) => lines({}, ...own).certificate;
    const unsure = { number: 'unsure', transfers: [] };
    const unsureTwice = { number: 'unsure twice', transfers: [], fillerGroups: [] };
    const out = { number: 'out', processes: ['141'] };
    const outTwice = { number: 'out twice', processes: ['141'], jointTypes: ['butt'] };
    const outUnsure = { number: 'out and unsure', processes: ['141'], transfers: [] };
    const all = [outTwice, outUnsure, out, unsureTwice, unsure, { number: 'held' }];
    expect(nearest(...all)).toBe('held');
    expect(nearest(...all.slice(0, 5))).toBe('unsure');
    expect(nearest(...all.slice(0, 4))).toBe('unsure twice');
    expect(nearest(...all.slice(0, 3))).toBe('out');
    expect(nearest(...all.slice(0, 2))).toBe('out and unsure');
    expect(nearest({ number: 'first' }, { number: 'second' })).toBe('first');
  });
});
