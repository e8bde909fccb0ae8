import fc from 'fast-check';
import { expect, it } from 'vitest';
import { valueOf, partsOf } from '../testing/value-of.js';
import { throatFromSettings, travelForThroat } from './bead.js';
import { depositionRate, wireForMetal, wireMassPerMetre } from './wire.js';

/** independent: pi/4 d^2 x 7850 / 1000, worked by hand; reference value in g/m. */
it.each([
  [0.8, 3.94584],
  [1.0, 6.16538],
  [1.2, 8.87814],
  [1.6, 15.7834],
])('independent: a steel wire of %f mm weighs %f g/m', (wireDiameterMm, expected) => {
  expect(valueOf(wireMassPerMetre({ wireDiameterMm }))).toBeCloseTo(expected, 4);
});

it('printed: 1152 in of 1/16 in wire to the pound (ESAB MIG handbook, within its 0.5 % band)', () => {
  const densityKgM3 = (0.283 * 0.45359237) / 0.0254 ** 3;
  const gramsPerMetre = valueOf(wireMassPerMetre({ wireDiameterMm: 25.4 / 16, densityKgM3 }));
  const inchesPerLb = 453.59237 / (gramsPerMetre * 0.0254);
  expect(Math.abs(inchesPerLb - 1152)).toBeLessThanOrEqual(5.76);
});

it('independent: 1.2 mm at 8 m/min and 0.95 lays 8.87814 x 8 x 60 x 0.95 / 1000 = 4.048 kg/h', () => {
  const rate = depositionRate({ wireDiameterMm: 1.2, wireSpeedMMin: 8, efficiency: 0.95 });
  expect(valueOf(rate)).toBeCloseTo(4.04843, 4);
});

/** printed: deposited over melted, MC-715 metal-cored data sheet, lb/h; efficiency printed in whole %. */
it.each([
  [2.4, 2.7, 89],
  [6.0, 6.5, 92],
  [10.6, 11.6, 91],
  [15.0, 16.5, 91],
])('printed: %f lb/h laid needs %f lb/h of wire at %i per cent', (laid, melted, efficiencyPct) => {
  const wire = valueOf(wireForMetal({ massKg: laid, efficiency: efficiencyPct / 100 }));
  expect(Math.abs(laid / wire - laid / melted)).toBeLessThanOrEqual(0.006);
  expect(Math.abs(wire - melted)).toBeLessThanOrEqual(0.05);
});

it('independent: 1.2 mm at 8 m/min, 450 mm/min and 0.95 lays a leg of 6.18 mm', () => {
  // 1.13097 mm2 x 8000 x 0.95 / 450 = 19.1008 mm2; root 4.3704; x 1.41421 = 6.1808.
  const settings = { wireDiameterMm: 1.2, wireSpeedMMin: 8, efficiency: 0.95, travelMmMin: 450 };
  expect(partsOf(throatFromSettings(settings)).legMm).toBeCloseTo(6.18076, 4);
});

it('independent: a5 with 10 % more area from 1.2 mm at 9 m/min asks for 351.6 mm/min', () => {
  // 1.13097 x 9000 x 0.95 / (25 x 1.1) = 351.63.
  const aim = { wireDiameterMm: 1.2, wireSpeedMMin: 9, efficiency: 0.95, throatMm: 5 };
  expect(valueOf(travelForThroat({ ...aim, extraAreaShare: 0.1 }))).toBeCloseTo(351.63, 2);
});

it('independent: invented example, 9.0 m/min at 520 mm/min and 0.96 lays 18.8 mm2, a throat of 4.33, 17 % over a4', () => {
  // 1.13097 x 9000 x 0.96 / 520 = 18.792 mm2; root 4.335; 18.792 / 16 = 1.174.
  const settings = { wireDiameterMm: 1.2, wireSpeedMMin: 9, efficiency: 0.96, travelMmMin: 520 };
  const laid = throatFromSettings(settings);
  expect(valueOf(laid)).toBeCloseTo(4.335, 3);
  expect(partsOf(laid).areaMm2).toBeCloseTo(18.792, 3);
  expect(partsOf(laid).areaMm2 / 16).toBeCloseTo(1.174, 3);
});

const feed = {
  wireDiameterMm: fc.double({ min: 0.6, max: 2.4, noNaN: true }),
  wireSpeedMMin: fc.double({ min: 1, max: 25, noNaN: true }),
  efficiency: fc.double({ min: 0.5, max: 1, noNaN: true }),
};
const travel = fc.double({ min: 50, max: 3000, noNaN: true });

it('lays less throat at more travel', () => {
  fc.assert(
    fc.property(
      fc.record(feed),
      travel,
      fc.double({ min: 1.001, max: 5, noNaN: true }),
      (wire, slow, times) => {
        const at = (travelMmMin: number) => valueOf(throatFromSettings({ ...wire, travelMmMin }));
        expect(at(slow * times)).toBeLessThan(at(slow));
      },
    ),
  );
});

it('independent: the throat laid at the travel found is the one it was found for', () => {
  fc.assert(
    fc.property(fc.record(feed), fc.double({ min: 2, max: 20, noNaN: true }), (wire, throatMm) => {
      const travelMmMin = valueOf(travelForThroat({ ...wire, throatMm }));
      const laid = valueOf(throatFromSettings({ ...wire, travelMmMin }));
      expect(Math.abs(laid / throatMm - 1)).toBeLessThan(1e-12);
    }),
  );
});

it('warns of an efficiency that tables do not give for wires, and still answers', () => {
  const rate = depositionRate({ wireDiameterMm: 1.2, wireSpeedMMin: 8, efficiency: 0.4 });
  expect(rate).toMatchObject({
    ok: true,
    warnings: [{ code: 'efficiencyUnusual', given: 0.4 }],
  });
});
