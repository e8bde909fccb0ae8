import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsOf, valueOf } from '../testing/value-of.js';
import { averageDuty } from './duty.js';
import { chainCurrent, plateCurrent } from './duty-plate.js';
import { worstWindowDuty, type CyclePiece } from './duty-window.js';

const weld = (durationS: number): CyclePiece => ({ arc: true, durationS });
const rest = (durationS: number): CyclePiece => ({ arc: false, durationS });

describe('the worst ten minutes', () => {
  it('independent: 6 min of arc and 4 min without are 60 % of every window (AWS glossary)', () => {
    expect(valueOf(worstWindowDuty({ pieces: [weld(360), rest(240)] }))).toBeCloseTo(60, 10);
  });

  it('independent: arc of 8 min after 12 min without fills 80 % of the worst window, 40 % on average', () => {
    const duty = worstWindowDuty({ pieces: [rest(720), weld(480)] });
    expect(valueOf(duty)).toBeCloseTo(80, 10);
    expect(valueOf(averageDuty({ arcS: 480, cycleS: 1200 }))).toBeCloseTo(40, 10);
  });

  it('independent: two welds of 4 min, 2 min apart, then 20 min of loading, are 80 %', () => {
    const pieces = [weld(240), rest(120), weld(240), rest(1200)];
    expect(valueOf(worstWindowDuty({ pieces }))).toBeCloseTo(80, 10);
    expect(partsOf(worstWindowDuty({ pieces })).opensAtS).toBe(0);
  });

  it('independent: no window of a sampled cycle has more arc than the worst, and one comes near', () => {
    const piece = fc.record({
      arc: fc.boolean(),
      durationS: fc.double({ min: 1, max: 500, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(piece, { minLength: 1, maxLength: 8 }), (pieces) => {
        const cycleS = pieces.reduce((sum, { durationS }) => sum + durationS, 0);
        const worst = (valueOf(worstWindowDuty({ pieces })) / 100) * 600;
        const stepS = cycleS / 400;
        const sampled = Array.from({ length: 400 }, (_, at) => arcBetween(pieces, at * stepS));
        expect(Math.max(...sampled)).toBeLessThanOrEqual(worst + 1e-6);
        expect(Math.max(...sampled)).toBeGreaterThanOrEqual(worst - 2 * stepS);
      }),
      { numRuns: 50 },
    );
  });
});

/** Arc time in the ten minutes from a moment, by walking piece by piece. */
function arcBetween(pieces: readonly CyclePiece[], fromS: number): number {
  let [atS, arcS, index] = [0, 0, 0];
  while (atS < fromS + 600) {
    const { arc, durationS } = pieces[index % pieces.length]!;
    const inside = Math.min(atS + durationS, fromS + 600) - Math.max(atS, fromS);
    if (arc && inside > 0) arcS += inside;
    atS += durationS;
    index += 1;
  }
  return arcS;
}

describe('a rating plate', () => {
  const points = [
    { dutyPct: 100, currentA: 300 },
    { dutyPct: 60, currentA: 350 },
  ];

  /** printed: three plates that the square-root rule misses are read as printed once their points are given. */
  it.each([
    [points, 100, 300],
    [
      [
        { dutyPct: 10, currentA: 200 },
        { dutyPct: 60, currentA: 85 },
      ],
      60,
      85,
    ],
    [
      [
        { dutyPct: 10, currentA: 200 },
        { dutyPct: 100, currentA: 65 },
      ],
      100,
      65,
    ],
  ])(
    'printed: %o, at %i per cent %i A: a point of the plate is what the plate says',
    (plate, dutyPct, printed) => {
      expect(valueOf(plateCurrent({ points: plate, dutyPct }))).toBeCloseTo(printed, 10);
    },
  );

  it('independent: between 60 % 350 A and 100 % 300 A, 80 % takes 320.9 A', () => {
    // ln(300/350) / ln(100/60) = -0.30177; 350 x (80/60)^-0.30177 = 320.9.
    const read = plateCurrent({ points, dutyPct: 80 });
    expect(valueOf(read)).toBeCloseTo(320.9, 1);
    expect(read).toMatchObject({ warnings: [] });
  });

  it('never allows more than the plate, and says when it goes on by the rule', () => {
    expect(valueOf(plateCurrent({ points, dutyPct: 5 }))).toBe(350);
    const beyond = plateCurrent({ points: [points[1]!], dutyPct: 100 });
    // 350 x sqrt(60 / 100) = 271.1; the plate's own 300 A is printed.
    expect(valueOf(beyond)).toBeCloseTo(271.1, 1);
    expect(beyond).toMatchObject({ warnings: [{ code: 'ruleOfThumb' }] });
  });

  it('allows less current at more duty, whatever the plate', () => {
    const duty = fc.double({ min: 1, max: 100, noNaN: true });
    fc.assert(
      fc.property(duty, duty, (one, other) => {
        const [low, high] = [Math.min(one, other), Math.max(one, other)];
        const at = (dutyPct: number) => valueOf(plateCurrent({ points, dutyPct }));
        expect(at(high)).toBeLessThanOrEqual(at(low));
        expect(at(low)).toBeLessThanOrEqual(350);
      }),
    );
  });

  it('independent: the torch, 250 x sqrt(60 / 69.77) = 231.8 A, is weaker than the source, and is named', () => {
    const links = [
      { name: 'source', points },
      { name: 'torch', points: [{ dutyPct: 60, currentA: 250 }] },
    ];
    const chain = chainCurrent({ links, dutyPct: 69.77 });
    expect(partsOf(chain).limitedBy).toBe('torch');
    expect(valueOf(chain)).toBeCloseTo(231.8, 1);
    expect(chain).toMatchObject({ warnings: [{ code: 'ruleOfThumb' }] });
  });
});

it.each<[what: string, answer: unknown, argument: string]>([
  ['no pieces', worstWindowDuty({ pieces: [] }), 'pieces'],
  ['no time', worstWindowDuty({ pieces: [weld(0)] }), 'cycle'],
  [
    'a piece of no number',
    worstWindowDuty({ pieces: [weld(9), rest(NaN)] }),
    'pieces[1].durationS',
  ],
  ['no plate', plateCurrent({ points: [], dutyPct: 60 }), 'points'],
  ['no duty', plateCurrent({ points: [{ dutyPct: 60, currentA: 300 }], dutyPct: 0 }), 'dutyPct'],
  [
    'more current at more duty',
    plateCurrent({
      points: [
        { dutyPct: 60, currentA: 300 },
        { dutyPct: 100, currentA: 350 },
      ],
      dutyPct: 60,
    }),
    'points[1]',
  ],
  [
    'a link whose plate has no amps',
    chainCurrent({ links: [{ name: 'x', points: [{ dutyPct: 60, currentA: -1 }] }], dutyPct: 60 }),
    'links[0].points[0].currentA',
  ],
  ['no links', chainCurrent({ links: [], dutyPct: 60 }), 'links'],
])('refuses %s', (_what, answer, argument) => {
  expect(answer).toMatchObject({ ok: false, refusal: { argument } });
});
