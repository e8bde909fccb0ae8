import { describe, expect, it } from 'vitest';
import {
  crossCheck,
  judgeSuggested,
  procedureTest,
  suggestedFor,
  suggestProcedureRanges,
} from '../index.js';
import type { ProcedureTest } from '../records.js';
import type { RangeVariable } from '../rule.js';

function rangesOf(given: Partial<ProcedureTest>) {
  return suggestProcedureRanges(
    procedureTest({ code: 'ISO 15614-1', edition: '2017', level: '2', ...given }),
  );
}
const of = (given: Partial<ProcedureTest>, variable: RangeVariable) =>
  suggestedFor(rangesOf(given), variable);

// Which edition says what is from memory, as the tables say beside their rows; the answers are pinned.
describe('pinned: editions of ISO 15614-1, from memory', () => {
  const singleRun = {
    jointType: 'butt',
    impactRequired: false,
    thicknessMm: 50,
    runs: 'single',
  } as const;
  it('are sure of a thick single run in 2004 only', () => {
    expect(of({ ...singleRun, edition: '2004' }, 'thickness')).toMatchObject({
      answer: 'range',
      band: { min: 25, max: expect.closeTo(55, 9) as number },
    });
    expect(of(singleRun, 'thickness')).toMatchObject({ answer: 'cannotSay', reason: 'unsureRow' });
  });

  it('are sure of small pipe in 2004 only', () => {
    const pipe = { product: 'pipe', diameterMm: 20 } as const;
    expect(of({ ...pipe, edition: '2004' }, 'diameter')).toMatchObject({ answer: 'range' });
    expect(of(pipe, 'diameter')).toMatchObject({
      answer: 'cannotSay',
      reason: 'unsureRow',
      band: { min: 10, max: 40 },
    });
  });

  it('have a column for metal laid per process since 2017 only', () => {
    expect(of({ jointType: 'butt', depositedMm: 3 }, 'depositedThickness')).not.toBe(null);
    expect(of({ jointType: 'butt', depositedMm: 3, edition: '2004' }, 'depositedThickness')).toBe(
      null,
    );
  });

  it('number heat input, preheat and interpass differently', () => {
    const heat = { heatInputKjMm: 1, impactRequired: true, hardnessRequired: true };
    expect(of(heat, 'heatInput')?.clause).toBe('8.4.7');
    expect(of({ ...heat, edition: '2004+A2:2012' }, 'heatInput')?.clause).toBe('8.4.8');
  });

  it('leave the band between 1.2 t and 2 t of a fillet open in both', () => {
    for (const edition of ['2004', '2017']) {
      const found = of({ jointType: 'fillet', thicknessMm: 10, edition }, 'thickness');
      expect([3, 5, 12, 12.1, 20, 20.1].map((mm) => judgeSuggested(found, mm))).toEqual([
        'cannotSay',
        'inside',
        'inside',
        'cannotSay',
        'cannotSay',
        'outside',
      ]);
    }
  });
});

describe('what the tables of ISO 15614-1 do not speak about', () => {
  it('is an edition that is not on file or not named', () => {
    expect(rangesOf({ edition: '1998' })).toMatchObject({
      cannotSay: {
        reason: 'unknownEdition',
        words: expect.stringContaining('2017, 2004') as string,
      },
      ranges: [],
    });
    expect(rangesOf({ edition: null }).cannotSay?.reason).toBe('unknownEdition');
  });
  it('is read from the code where the edition stands there', () => {
    expect(rangesOf({ code: 'EN ISO 15614-1:2017+A1:2019', edition: null }).cannotSay).toBe(null);
  });
  it('is level 1: every variable, with the reason', () => {
    const { cannotSay, ranges } = rangesOf({ level: '1', thicknessMm: 10, jointType: 'butt' });
    expect(cannotSay).toMatchObject({ reason: 'outOfScope' });
    expect(cannotSay?.words).toContain('level 1');
    expect(ranges.length).toBeGreaterThan(5);
    expect(ranges.every(({ answer }) => answer === 'cannotSay')).toBe(true);
  });
  it('is a record of 2017 that names no level, but not one of 2004, which had none', () => {
    expect(rangesOf({ level: null }).cannotSay?.words).toContain('no level');
    expect(rangesOf({ level: null, edition: '2004' }).cannotSay).toBe(null);
  });
  it('is aluminium, for which the standard that would apply is named', () => {
    expect(rangesOf({ materialGroups: ['23.1', '22.3'] }).cannotSay?.words).toContain(
      'ISO 15614-2',
    );
  });
  it('is another code', () => {
    expect(rangesOf({ code: 'ISO 15613' }).cannotSay?.reason).toBe('unknownCode');
    expect(rangesOf({ code: 'ISO 15614-11' }).cannotSay?.reason).toBe('unknownCode');
  });
  it('is a test piece without the input a row needs, by name', () => {
    expect(of({ jointType: 'butt', thicknessMm: 10 }, 'thickness')).toMatchObject({
      answer: 'cannotSay',
      reason: 'inputMissing',
      words: 'the test record does not give runs',
    });
  });
});

describe('independent: the cross-check, against ranges worked by hand', () => {
  const ten = { jointType: 'butt', impactRequired: false, thicknessMm: 12, runs: 'multi' } as const;
  const check = (typed: { min: number | null; max: number | null } | null) =>
    crossCheck({ suggested: of(ten, 'thickness'), typed });
  it('asks about a printed range that is wider than the rule', () => {
    expect(check({ min: 3, max: 30 })).toEqual({
      answer: 'ask',
      relation: 'wider',
      words: 'printed 3 to 30 mm, the rule gives 3 to 24 mm',
      clause: '8.3.2, Table 7',
    });
    expect(check({ min: 3, max: null })).toMatchObject({ answer: 'ask', relation: 'wider' });
  });
  it('agrees with the same and with a narrower range', () => {
    expect(check({ min: 3, max: 24 })).toMatchObject({ answer: 'agrees', relation: 'same' });
    expect(check({ min: 5, max: 20 })).toMatchObject({ answer: 'agrees', relation: 'narrower' });
  });
  it('asks when the test piece itself is outside what is printed', () => {
    expect(check({ min: 3, max: 10 })).toMatchObject({ answer: 'ask', relation: 'missesTest' });
  });
  it('cannot say where nothing is typed, no rule is on file or the rule is not sure', () => {
    expect(check(null).answer).toBe('cannotSay');
    expect(check({ min: null, max: null }).answer).toBe('cannotSay');
    expect(crossCheck({ suggested: null, typed: { min: 1, max: 2 } }).answer).toBe('cannotSay');
    const fillet = of({ jointType: 'fillet', thicknessMm: 10 }, 'thickness');
    expect(crossCheck({ suggested: fillet, typed: { min: 5, max: 20 } })).toMatchObject({
      answer: 'cannotSay',
      relation: 'wider',
    });
    expect(crossCheck({ suggested: fillet, typed: { min: 5, max: 21 } }).answer).toBe('ask');
  });
  it('compares lists, and groups with pairs of groups', () => {
    const positions = of(
      { position: 'PA', impactRequired: false, hardnessRequired: false },
      'position',
    );
    expect(crossCheck({ suggested: positions, typed: ['PA', 'PF'] }).answer).toBe('agrees');
    expect(crossCheck({ suggested: positions, typed: ['PA', 'PG'] }).answer).toBe('ask');
    expect(crossCheck({ suggested: positions, typed: ['PF'] }).relation).toBe('missesTest');
    const groups = of({ materialGroups: ['2.2'], yieldsMPa: [500] }, 'materialGroup');
    expect(crossCheck({ suggested: groups, typed: ['1-1', '1-2', '2-2'] })).toMatchObject({
      answer: 'agrees',
      relation: 'same',
    });
    expect(crossCheck({ suggested: groups, typed: ['1.2', '2.2'] }).answer).toBe('agrees');
    expect(crossCheck({ suggested: groups, typed: ['2.2', '3.1'] }).answer).toBe('ask');
  });
});
