import fc from 'fast-check';
import { expect, it } from 'vitest';
import { accepted, refusesTheImpossible } from '../testing/refusal-suite.js';
import { partsOf, valueOf } from '../testing/value-of.js';
import { coolingTime2d, coolingTime3d, transitionThickness } from './cooling-time.js';
import { shapeFactors, type WeldForm } from './shape-factors.js';
import { largestHeatInput, weldCoolingTime } from './weld-cooling.js';

/** independent: formulas 3.1 and 3.2 of the SSAB welding handbook, 2nd ed., p. 17 (EN 1011-2 Annex D), by hand. */
it.each([
  ['6600 x 1.0 x (1/480 - 1/780)', 1.0, 20, 1, 5.28846],
  ['6200 x 1.5 x (1/400 - 1/700)', 1.5, 100, 1, 9.96429],
  ['the same in a T-fillet, x 0.67', 1.5, 100, 0.67, 6.67607],
])(
  'independent: three dimensions, %s',
  (_words, heatInputKjMm, plateC, shapeFactor3d, expected) => {
    expect(valueOf(coolingTime3d({ heatInputKjMm, plateC, shapeFactor3d }))).toBeCloseTo(
      expected,
      5,
    );
  },
);

it.each([
  ['421 400 000 x 0.01 x (1/480^2 - 1/780^2)', 0.8, 8, 20, 1, 11.3636],
  ['387 000 000 x 0.01 x (1/400^2 - 1/700^2) x 0.9', 0.8, 8, 100, 0.9, 14.6606],
])(
  'independent: two dimensions, %s',
  (_words, heatInputKjMm, thicknessMm, plateC, shapeFactor2d, expected) => {
    const inputs = { heatInputKjMm, thicknessMm, plateC, shapeFactor2d };
    expect(valueOf(coolingTime2d(inputs))).toBeCloseTo(expected, 4);
  },
);

it.each([
  [1.0, 20, 14.6586],
  [1.5, 100, 19.1789],
])('independent: transition thickness at %f kJ/mm and %f degC', (heatInputKjMm, plateC, mm) => {
  expect(valueOf(transitionThickness({ heatInputKjMm, plateC }))).toBeCloseTo(mm, 4);
});

it('independent: 20 s on thick plate at 150 degC allow 2.55 kJ/mm', () => {
  const inputs = { wantedS: 20, plateC: 150, thicknessMm: 100, weldForm: 'beadOnPlate' } as const;
  const largest = largestHeatInput(inputs);
  expect(valueOf(largest)).toBeCloseTo(2.54902, 5);
  expect(partsOf(largest).flow).toBe('3d');
});

/** printed: shape factors of a T-joint, 0.67 and 0.45 (German copy of EN 1011-2 Annex D); derived: paths 2 of 3. */
it('printed: 0.67 of the T-joint is two of three heat paths', () => {
  expect(Math.round((2 / 3) * 100) / 100).toBe(shapeFactors.teeFilletFirstOrSecond.threeD.low);
});

it('independent, disagreement: the thin-plate factor of a T-joint is printed 0.45; (2/3)^2 is 0.444', () => {
  expect((2 / 3) ** 2).toBeCloseTo(0.4444, 4);
  expect(shapeFactors.teeFilletFirstOrSecond.twoD.low - (2 / 3) ** 2).toBeCloseTo(0.00556, 4);
});

/** printed: EN 1011-2 Annex D from a German copy; cells from memory are named beside the table. */
it.each([
  ['beadOnPlate', 1, 1, 1, 1],
  ['buttRun', 0.9, 0.9, 0.9, 0.9],
  ['vRootRun', 1, 1, 1, 1.2],
  ['vCapRun', 1, 1, 0.9, 1],
  ['teeFilletFirstOrSecond', 0.45, 0.67, 0.67, 0.67],
  ['teeFilletThirdOrFourth', 0.3, 0.67, 0.67, 0.67],
  ['cornerFillet', 0.67, 0.9, 0.67, 0.67],
  ['lapFillet', 0.7, 0.7, 0.67, 0.67],
] as const)('printed: band of a %s', (weldForm, low2d, high2d, low3d, high3d) => {
  const plate = { heatInputKjMm: 1, plateC: 20, weldForm };
  const thin = partsOf(weldCoolingTime({ ...plate, thicknessMm: 10 }));
  // 421 400 000 x (1/10)^2 x (1/480^2 - 1/780^2) = 11.3636 s; 6600 x 1 x (1/480 - 1/780) = 5.28846 s.
  expect(thin.flow).toBe('2d');
  expect(thin.lowS).toBeCloseTo(11.3636 * low2d, 3);
  expect(thin.highS).toBeCloseTo(11.3636 * high2d, 3);
  const thick = partsOf(weldCoolingTime({ ...plate, thicknessMm: 40 }));
  expect(thick.flow).toBe('3d');
  expect(thick.lowS).toBeCloseTo(5.28846 * low3d, 4);
  expect(thick.highS).toBeCloseTo(5.28846 * high3d, 4);
});

it('says who decides and how far measurements scatter', () => {
  const plate = { heatInputKjMm: 1, plateC: 20, thicknessMm: 10 };
  const result = weldCoolingTime({ ...plate, weldForm: 'buttRun' });
  expect(result).toMatchObject({
    warnings: [{ code: 'coordinatorDecides' }, { code: 'methodScatters', given: 10 }],
  });
});

it.each([-1, 499.5, 600])('is outside the method on plate of %f degC', (plateC) => {
  const refusal = { argument: 'plateC', given: plateC, outsideMethod: 'coolingTime' };
  const plate = { plateC, thicknessMm: 10, weldForm: 'buttRun' } as const;
  const heat = { heatInputKjMm: 1, plateC };
  expect(weldCoolingTime({ ...plate, ...heat })).toMatchObject({ refusal });
  expect(largestHeatInput({ ...plate, wantedS: 10 })).toMatchObject({ refusal });
  expect(coolingTime3d({ ...heat, shapeFactor3d: 1 })).toMatchObject({ refusal });
  expect(coolingTime2d({ ...heat, thicknessMm: 10, shapeFactor2d: 1 })).toMatchObject({ refusal });
  expect(transitionThickness(heat)).toMatchObject({ refusal });
});

it('refuses a form of weld that has no shape factors', () => {
  const plate = { plateC: 20, thicknessMm: 10, weldForm: 'toString' as WeldForm };
  const refusal = { argument: 'weldForm', given: 'toString' };
  expect(weldCoolingTime({ ...plate, heatInputKjMm: 1 })).toMatchObject({ refusal });
  expect(largestHeatInput({ ...plate, wantedS: 10 })).toMatchObject({ refusal });
});

const heat = { heatInputKjMm: 1, plateC: 20 };
const buttRun = { plateC: 20, thicknessMm: 12, weldForm: 'buttRun' } as const;
refusesTheImpossible(
  {
    coolingTime3d: accepted(coolingTime3d, { ...heat, shapeFactor3d: 1 }),
    coolingTime2d: accepted(coolingTime2d, { ...heat, thicknessMm: 8, shapeFactor2d: 1 }),
    transitionThickness: accepted(transitionThickness, heat),
    weldCoolingTime: accepted(weldCoolingTime, { ...heat, ...buttRun }),
    largestHeatInput: accepted(largestHeatInput, { wantedS: 12, ...buttRun }),
  },
  { nought: ['plateC'] },
);

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyHeat = between(0.05, 20);
const anyPlateC = between(0, 400);
const anyForm = fc.constantFrom(...(Object.keys(shapeFactors) as WeldForm[]));

it('independent: both formulas give the same time at the transition thickness', () => {
  fc.assert(
    fc.property(anyHeat, anyPlateC, (heatInputKjMm, plateC) => {
      const thicknessMm = valueOf(transitionThickness({ heatInputKjMm, plateC }));
      const thin = valueOf(coolingTime2d({ heatInputKjMm, plateC, thicknessMm, shapeFactor2d: 1 }));
      const thick = valueOf(coolingTime3d({ heatInputKjMm, plateC, shapeFactor3d: 1 }));
      expect(thin / thick).toBeCloseTo(1, 9);
    }),
  );
});

it('independent: gives the longer of both formulas where both shape factors are the same', () => {
  fc.assert(
    fc.property(anyHeat, anyPlateC, between(1, 200), (heatInputKjMm, plateC, thicknessMm) => {
      const weld = { heatInputKjMm, plateC, thicknessMm, weldForm: 'beadOnPlate' } as const;
      const thin = valueOf(coolingTime2d({ heatInputKjMm, plateC, thicknessMm, shapeFactor2d: 1 }));
      const thick = valueOf(coolingTime3d({ heatInputKjMm, plateC, shapeFactor3d: 1 }));
      expect(valueOf(weldCoolingTime(weld)) / Math.max(thin, thick)).toBeCloseTo(1, 9);
    }),
  );
});

it('more heat or warmer plate never cools faster', () => {
  fc.assert(
    fc.property(
      ...[anyHeat, anyHeat, anyPlateC, anyPlateC, between(1, 200)],
      (heatA, heatB, plateA, plateB, thicknessMm) => {
        const time = (heatInputKjMm: number, plateC: number) =>
          valueOf(weldCoolingTime({ heatInputKjMm, plateC, thicknessMm, weldForm: 'beadOnPlate' }));
        const cool = time(Math.min(heatA, heatB), Math.min(plateA, plateB));
        const warm = time(Math.max(heatA, heatB), Math.max(plateA, plateB));
        expect(warm).toBeGreaterThanOrEqual(cool * (1 - 1e-9));
      },
    ),
  );
});

it('independent: the largest heat input, put in forward, keeps the wanted time, and meets it where the flow of heat does not change', () => {
  fc.assert(
    fc.property(
      ...[between(1, 60), between(0, 300), between(5, 100), anyForm],
      (wantedS, plateC, thicknessMm, weldForm) => {
        const plate = { plateC, thicknessMm, weldForm };
        const largest = largestHeatInput({ ...plate, wantedS });
        const forward = weldCoolingTime({ ...plate, heatInputKjMm: valueOf(largest) });
        expect(valueOf(forward)).toBeLessThanOrEqual(wantedS * (1 + 1e-9));
        const { twoD, threeD } = shapeFactors[weldForm];
        if (twoD.high === threeD.high) expect(valueOf(forward)).toBeCloseTo(wantedS, 6);
      },
    ),
  );
});

it('up to the largest heat input no smaller one cools slower than wanted', () => {
  fc.assert(
    fc.property(
      ...[between(1, 60), between(0, 300), between(5, 100), anyForm, between(0.01, 0.999)],
      (wantedS, plateC, thicknessMm, weldForm, share) => {
        const plate = { plateC, thicknessMm, weldForm };
        const heatInputKjMm = valueOf(largestHeatInput({ ...plate, wantedS })) * share;
        const time = valueOf(weldCoolingTime({ ...plate, heatInputKjMm }));
        expect(time).toBeLessThanOrEqual(wantedS * (1 + 1e-9));
      },
    ),
  );
});

it('independent: stops at the change of flow where the factor jumps up there and the wanted time lies in the jump', () => {
  // Corner, 14.6586 mm at 20 degC: change at 1 kJ/mm, 5.288 x 0.67 = 3.54 s below it, x 0.9 = 4.76 s above.
  const corner = { plateC: 20, thicknessMm: 14.65862, weldForm: 'cornerFillet' } as const;
  const largest = largestHeatInput({ ...corner, wantedS: 4 });
  expect(valueOf(largest)).toBeCloseTo(1, 4);
  expect(partsOf(largest).flow).toBe('3d');
  expect(partsOf(largestHeatInput({ ...corner, wantedS: 5 })).flow).toBe('2d');
});
