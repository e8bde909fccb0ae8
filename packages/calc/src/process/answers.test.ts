import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsOf, valueOf } from '../testing/value-of.js';
import { arcEnergy, heatInput, kFactor } from './arc-energy.js';
import { currentSuggestion, wireSpeedSuggestion } from './current.js';
import { depositionBand } from './deposition.js';
import { allowedCurrent, averageDuty, permittedDuty } from './duty.js';
import { chainCurrent, plateCurrent } from './duty-plate.js';
import { worstTenMinuteDuty, worstWindowDuty, type CyclePiece } from './duty-window.js';
import { gasLossFactor } from './gas.js';
import { processRow, wireProcess } from './process-table.js';
import { filletRuns, singleRunLimit } from './runs.js';
import { electrodesForMetal } from './stick.js';
import { efficiencyWarnings, wireForMetal } from './wire.js';

function allowedBy(answer: { ok: boolean }): string | null {
  return 'refusal' in answer ? (answer.refusal as { allowed: string }).allowed : null;
}

describe('the processes that tables know', () => {
  /** pinned: the table as it stands, whose sources are named beside it. */
  it.each([
    ['111', [0.6, 0.65], [0.4, 5.5], false],
    ['114', [0.75, 0.85], [1, 15], true],
    ['121', [0.99, 0.99], [3, 16], true],
    ['131', [0.92, 0.99], [0.6, 12], true],
    ['135', [0.92, 0.99], [0.6, 12], true],
    ['136', [0.82, 0.92], [1, 15], true],
    ['138', [0.88, 0.98], [0.6, 12], true],
    ['141', [0.94, 0.97], null, true],
  ] as const)('pinned: %s keeps %j of its wire', (process, efficiency, rates, wire) => {
    const row = processRow(process);
    expect(row && [row.efficiency.min, row.efficiency.max]).toEqual(efficiency);
    expect(row?.depositionKgH && [row.depositionKgH.min, row.depositionKgH.max]).toEqual(rates);
    expect(row?.wire).toBe(wire);
    for (const share of efficiency) expect(efficiencyWarnings(share, process)).toEqual([]);
    const beyond = efficiency[1] + 0.001;
    expect(efficiencyWarnings(beyond, process)).toEqual([
      { code: 'efficiencyUnusual', given: beyond },
    ]);
    expect(efficiencyWarnings(efficiency[0] - 0.001, process)).toHaveLength(1);
  });

  it('takes a number with spaces around it, and knows nothing of what is no process', () => {
    expect(processRow(' 135 ')).toEqual(processRow('135'));
    expect(kFactor(' 135 ')).toBe(0.8);
    for (const odd of [undefined, null, {}] as unknown as string[]) {
      expect(processRow(odd)).toBeNull();
      expect(kFactor(odd)).toBeNull();
    }
  });

  it.each(['111', '999'])('lists the wire processes where %s is none', (process) => {
    expect(wireProcess(process)).toEqual({
      ok: false,
      refusal: {
        ...{ argument: 'process', given: process },
        allowed: 'a wire process with a published range: 114, 121, 131, 135, 136, 138, 141',
      },
    });
  });

  it('holds the efficiency of any wire to 75 to 99 %', () => {
    for (const share of [0.75, 0.99]) expect(efficiencyWarnings(share)).toEqual([]);
    for (const share of [0.749, 0.991]) expect(efficiencyWarnings(share)).toHaveLength(1);
  });

  it('independent, by hand: 3 kg of metal at 0.75 with 10 % more take 3 / 0.75 x 1.1 = 4.4 kg of wire', () => {
    const wire = { massKg: 3, efficiency: 0.75, overWeldShare: 0.1 };
    expect(valueOf(wireForMetal(wire))).toBeCloseTo(4.4, 9);
  });

  it('says no rate is unusual where no rates are printed', () => {
    const band = depositionBand({ process: '141', wireDiameterMm: 1, wireSpeedMMin: 0.1 });
    expect(band).toMatchObject({ warnings: [] });
  });
});

describe('arc energy in words', () => {
  const arc = { currentA: 250, voltageV: 27, travelMmMin: 450 };
  it('warns of a pulsed arc alone', () => {
    expect(arcEnergy(arc)).toMatchObject({ warnings: [] });
    expect(arcEnergy({ ...arc, pulsed: true })).toMatchObject({
      warnings: [{ code: 'meanPowerOfPulsedArc' }],
    });
  });
  it('lists the processes that have a factor k', () => {
    const allowed = allowedBy(heatInput({ ...arc, process: '999' }));
    expect(allowed?.startsWith('a process with a factor k: ')).toBe(true);
    expect(allowed?.split(': ')[1]?.split(', ')).toEqual(
      expect.arrayContaining(['111', '121', '135', '141']),
    );
  });
});

it('calls current and wire speed by melting a suggestion', () => {
  const wire = { wireDiameterMm: 1.2, extensionMm: 15 };
  for (const answer of [
    wireSpeedSuggestion({ ...wire, currentA: 250 }),
    currentSuggestion({ ...wire, wireSpeedMMin: 8 }),
  ])
    expect(answer.ok && answer.warnings.map(({ code }) => code)).toContain('suggestionOnly');
});

describe('duty at its limits', () => {
  it('independent: an arc as long as the cycle is 100 %, a longer one is refused in words', () => {
    expect(valueOf(averageDuty({ arcS: 60, cycleS: 60 }))).toBe(100);
    expect(allowedBy(averageDuty({ arcS: 61, cycleS: 60 }))).toBe('not more than the cycle, 60 s');
    const worst = { arcS: 60, robotS: 60, cycleS: 60 };
    expect(worstTenMinuteDuty(worst)).toMatchObject({
      ...{ ok: true, value: 100, unit: '%', sources: ['iec60974', 'evenArc'] },
      warnings: [{ code: 'arcSpreadEvenly', given: null }],
    });
    expect(allowedBy(worstTenMinuteDuty({ ...worst, arcS: 61 }))).toBe(
      'not more than the robot time, 60 s',
    );
    expect(worstTenMinuteDuty({ ...worst, robotS: 61 })).toMatchObject({
      refusal: { argument: 'robotS', given: 61, allowed: 'not more than the cycle, 60 s' },
    });
  });

  it('gives the units and the works of its rule', () => {
    const rated = { ratedA: 250, ratedDutyPct: 60 };
    expect(permittedDuty({ ...rated, currentA: 280 })).toMatchObject({
      ...{ unit: '%', sources: ['dutyRule', 'iec60974'] },
      warnings: [{ code: 'ruleOfThumb', given: null }],
    });
    expect(allowedCurrent({ ...rated, dutyPct: 48, maxA: 300 })).toMatchObject({
      ...{ unit: 'A', sources: ['dutyRule', 'iec60974'], inputs: { maxA: 300 } },
    });
  });
});

describe('a plate in words', () => {
  const points = [
    { dutyPct: 100, currentA: 300 },
    { dutyPct: 35, currentA: 400 },
    { dutyPct: 60, currentA: 350 },
  ];
  const list = (count: number) =>
    Array.from({ length: count }, (_, at) => ({ dutyPct: at + 1, currentA: 500 - at }));

  it('takes its points in any order, and tells the largest current of the plate', () => {
    for (const { dutyPct, currentA } of points)
      expect(plateCurrent({ points, dutyPct })).toMatchObject({ value: currentA, warnings: [] });
    expect(partsOf(plateCurrent({ points, dutyPct: 80 }))).toEqual({ ratedMaximumA: 400 });
  });

  it('takes 1 to 20 points, and 1 link or more', () => {
    const words = 'a list of 1 to 20 points of the plate';
    expect(plateCurrent({ points: list(20), dutyPct: 60 }).ok).toBe(true);
    for (const odd of [list(21), [], 'plate' as unknown as []])
      expect(plateCurrent({ points: odd, dutyPct: 60 })).toEqual({
        ok: false,
        refusal: { argument: 'points', given: odd, allowed: words },
      });
    expect(chainCurrent({ links: [], dutyPct: 60 })).toMatchObject({
      refusal: { argument: 'links', allowed: 'a list of 1 link or more' },
    });
    expect(chainCurrent({ links: [{ name: 'x', points }], dutyPct: 0 })).toMatchObject({
      refusal: { argument: 'dutyPct', given: 0 },
    });
  });

  it('takes the same current at two duties, and not two currents at one', () => {
    const level = [points[0]!, { dutyPct: 60, currentA: 300 }];
    expect(valueOf(plateCurrent({ points: level, dutyPct: 80 }))).toBeCloseTo(300, 9);
    const twice = [points[0]!, { dutyPct: 100, currentA: 280 }];
    expect(plateCurrent({ points: twice, dutyPct: 80 })).toMatchObject({
      refusal: {
        ...{ argument: 'points[0]', given: points[0] },
        allowed: 'one current for each duty, not more current at more duty',
      },
    });
  });

  it('names the first of two links that are as weak, and every link with its current', () => {
    const links = [
      { name: 'source', points },
      { name: 'torch', points: [{ dutyPct: 100, currentA: 250 }] },
      { name: 'cable', points: [{ dutyPct: 100, currentA: 250 }] },
    ];
    const chain = chainCurrent({ links, dutyPct: 100 });
    expect(chain).toMatchObject({ value: 250, unit: 'A', sources: ['iec60974', 'dutyRule'] });
    expect(partsOf(chain)).toEqual({
      limitedBy: 'torch',
      links: [
        { name: 'source', currentA: 300 },
        { name: 'torch', currentA: 250 },
        { name: 'cable', currentA: 250 },
      ],
    });
    expect(partsOf(chainCurrent({ links: links.toReversed(), dutyPct: 100 })).limitedBy).toBe(
      'cable',
    );
  });
});

describe('the worst window in words', () => {
  const arc = (durationS: number): CyclePiece => ({ arc: true, durationS });
  const rest = (durationS: number): CyclePiece => ({ arc: false, durationS });

  it('takes 1 to 2000 pieces', () => {
    const pieces = (count: number) => Array.from({ length: count }, () => arc(1));
    expect(valueOf(worstWindowDuty({ pieces: pieces(2000) }))).toBe(100);
    expect(allowedBy(worstWindowDuty({ pieces: pieces(2001) }))).toBe('a list of 1 to 2000 pieces');
  });

  it('independent: opens as the arc starts, 720 s into 720 s without and 480 s with', () => {
    expect(partsOf(worstWindowDuty({ pieces: [rest(720), arc(480)] }))).toEqual({
      ...{ arcS: 480, opensAtS: 720 },
    });
    expect(partsOf(worstWindowDuty({ pieces: [rest(0), arc(300), rest(900)] }))).toEqual({
      ...{ arcS: 300, opensAtS: 0 },
    });
  });

  it('independent: the same cycle begun at any of its pieces has the same worst window', () => {
    const piece = fc.record({ arc: fc.boolean(), durationS: fc.integer({ min: 1, max: 900 }) });
    fc.assert(
      fc.property(fc.array(piece, { minLength: 2, maxLength: 6 }), fc.nat(5), (pieces, by) => {
        const at = by % pieces.length;
        const turned = [...pieces.slice(at), ...pieces.slice(0, at)];
        const duty = valueOf(worstWindowDuty({ pieces }));
        expect(valueOf(worstWindowDuty({ pieces: turned }))).toBeCloseTo(duty, 6);
      }),
    );
  });
});

describe('runs and electrodes in words', () => {
  /** memory: AWS D1.1, prequalified single-run maxima in mm, to be held against the shop's own copy. */
  it.each([
    ['111', 'PA', 10],
    ['111', 'PB', 8],
    ['111', 'PF', 12],
    ['114', 'PA', 12],
    ['131', 'PB', 10],
    ['136', 'PA', 12],
    ['138', 'PD', 8],
  ])('memory: one run of %s in %s lays a leg of up to %i mm', (process, position, legMm) => {
    expect(singleRunLimit({ process, position })).toMatchObject({
      ...{ value: legMm, unit: 'mm', sources: ['singleRun'] },
      warnings: [{ code: 'limitFromMemory', given: legMm }],
    });
  });

  it('lists the processes and positions that have a limit', () => {
    expect(allowedBy(singleRunLimit({ process: '999', position: 'PA' }))).toBe(
      'a process with a limit: 111, 114, 131, 135, 136, 138',
    );
    expect(allowedBy(singleRunLimit({ process: '135', position: 'XX' }))).toMatch(
      /^one of .*PA, .*PB/,
    );
  });

  it('independent, by hand: z12 by runs of 10 mm takes 1.44, so 2, and says what the limit rests on', () => {
    const leg = { process: '135', position: 'PB', legMm: 12 };
    expect(filletRuns(leg)).toMatchObject({
      ...{ value: 2, sources: ['geometry', 'singleRun'], parts: { limitLegMm: 10 } },
      warnings: [{ code: 'limitFromMemory', given: 10 }],
    });
    expect(filletRuns({ ...leg, limitLegMm: 12 })).toMatchObject({
      ...{ value: 1, sources: ['geometry'], warnings: [], parts: { limitLegMm: 12 } },
    });
  });

  it('independent, by hand: 4 electrodes of 36 g lay 4 x 36 x 0.62 x 6 / 7 = 76.53 g and no fifth is begun', () => {
    const stick = { efficiency: 0.62, electrodeMm: 350, stubMm: 50, electrodeMassG: 36 };
    const massKg = (4 * 36 * 0.62 * 300) / 350 / 1000;
    expect(valueOf(electrodesForMetal({ ...stick, massKg }))).toBe(4);
    expect(valueOf(electrodesForMetal({ ...stick, massKg: massKg * 1.001 }))).toBe(5);
    expect(allowedBy(electrodesForMetal({ ...stick, massKg, electrodeMassG: 0 }))).toBe(
      'a number from 1 to 1000 g',
    );
    expect(allowedBy(electrodesForMetal({ ...stick, massKg, electrodeMm: 1 }))).toBe(
      'a number from 50 to 1000 mm',
    );
  });

  it('warns of a loss factor below one, and of none at one', () => {
    expect(gasLossFactor({ usedL: 8000, calculatedL: 8000 })).toMatchObject({
      ...{ value: 1, warnings: [] },
    });
    expect(gasLossFactor({ usedL: 4000, calculatedL: 8000 })).toMatchObject({
      warnings: [{ code: 'lossBelowOne', given: 0.5 }],
    });
  });
});
