import { expect, it } from 'vitest';
import { partsOf, valueOf } from '../testing/value-of.js';
import {
  arcEnergy,
  arcEnergyFromEnergy,
  arcEnergyFromPower,
  heatInput,
  heatInputFromArcEnergy,
  kFactor,
} from './arc-energy.js';

const mmPerInch = 25.4;

/** printed: EN 1011-1:2009 Table 1; TWI and SSAB pages give the same figures. */
it.each([
  ['111', 0.8],
  ['114', 0.8],
  ['121', 1.0],
  ['131', 0.8],
  ['135', 0.8],
  ['136', 0.8],
  ['137', 0.8],
  ['138', 0.8],
  ['139', 0.8],
  ['141', 0.6],
  ['15', 0.6],
])('printed: k of process %s is %f', (process, k) => {
  expect(kFactor(process)).toBe(k);
});

/** independent: the formula of EN 1011-1 worked by hand, 60 x U x I x k / (1000 v). */
it.each([
  ['MAG: 60 x 27 x 250 / 450 000 x 0.8', '135', 250, 27, 450, 0.72],
  ['submerged arc: 60 x 32 x 600 / 500 000 x 1', '121', 600, 32, 500, 2.304],
  ['TIG: 60 x 12 x 150 / 100 000 x 0.6', '141', 150, 12, 100, 0.648],
])('independent: heat input, %s', (_what, process, currentA, voltageV, travelMmMin, expected) => {
  expect(valueOf(heatInput({ process, currentA, voltageV, travelMmMin }))).toBeCloseTo(
    expected,
    10,
  );
});

it('independent: arc energy 60 x 27 x 250 / (1000 x 450) = 0.900 kJ/mm', () => {
  expect(valueOf(arcEnergy({ currentA: 250, voltageV: 27, travelMmMin: 450 }))).toBeCloseTo(
    0.9,
    10,
  );
});

it('independent: ASME IX QW-409.1(a) has no k: 60 x 26 x 250 / 12 in/min = 32 500 J/in', () => {
  const energy = valueOf(arcEnergy({ currentA: 250, voltageV: 26, travelMmMin: 12 * mmPerInch }));
  expect(energy * 1000 * mmPerInch).toBeCloseTo(32_500, 6);
  expect(energy).toBeCloseTo(1.27953, 5);
});

it('independent: ISO/TR 18491 method C, 60 x 6500 W / (1000 x 450) = 0.8667 kJ/mm', () => {
  expect(valueOf(arcEnergyFromPower({ powerW: 6500, travelMmMin: 450 }))).toBeCloseTo(0.866667, 6);
});

it('independent: ISO/TR 18491 method B, 54 000 J / (1000 x 60 mm) = 0.900 kJ/mm', () => {
  expect(valueOf(arcEnergyFromEnergy({ energyJ: 54_000, lengthMm: 60 }))).toBeCloseTo(0.9, 10);
});

/** invented examples: settings and readings of a made-up bracket, k = 0.8. */
it.each([
  ['60 x 26.5 x 255 / 520 000 = 0.780 x 0.8', 255, 26.5, 520, 0.624],
  ['60 x 28 x 280 / 300 000 = 1.568 x 0.8', 280, 28, 300, 1.254],
  ['60 x 28 x 280 / 450 000 = 1.045 x 0.8', 280, 28, 450, 0.836],
  ['60 x 25 x 230 / 600 000 = 0.575 x 0.8', 230, 25, 600, 0.46],
])('independent: invented example, %s', (_words, currentA, voltageV, travelMmMin, expected) => {
  const heat = valueOf(heatInput({ process: '135', currentA, voltageV, travelMmMin }));
  expect(heat).toBeCloseTo(expected, 3);
});

it('refuses a process without a factor and lists those that have one', () => {
  expect(kFactor('999')).toBeNull();
  expect(kFactor('toString')).toBeNull();
  const heat = heatInput({ process: '311', currentA: 250, voltageV: 27, travelMmMin: 450 });
  expect(heat).toMatchObject({ ok: false, refusal: { argument: 'process', given: '311' } });
  expect(heat.ok ? '' : heat.refusal.allowed).toContain('135');
});

it('warns that mean values mislead on a pulsed arc', () => {
  const pulsed = arcEnergy({ currentA: 250, voltageV: 27, travelMmMin: 450, pulsed: true });
  expect(pulsed).toMatchObject({ ok: true, warnings: [{ code: 'meanPowerOfPulsedArc' }] });
});

it('independent: 6500 W at 450 mm/min is 0.8667 kJ/mm, x 0.8 once is 0.6933, and no k gives no heat input', () => {
  const energy = valueOf(arcEnergyFromPower({ powerW: 6500, travelMmMin: 450 }));
  const heat = heatInputFromArcEnergy({ arcEnergyKjMm: energy, process: '135' });
  expect(valueOf(heat)).toBeCloseTo(0.693333, 6);
  expect(partsOf(heat).k).toBe(0.8);
  expect(heatInputFromArcEnergy({ arcEnergyKjMm: energy, process: '311' })).toMatchObject({
    refusal: { argument: 'process', given: '311' },
  });
});

it('independent: by mean values and by way of their arc energy the heat input is the same', () => {
  const arc = { currentA: 250, voltageV: 27, travelMmMin: 450 };
  const arcEnergyKjMm = valueOf(arcEnergy(arc));
  expect(valueOf(heatInputFromArcEnergy({ arcEnergyKjMm, process: '135' }))).toBeCloseTo(
    valueOf(heatInput({ ...arc, process: '135' })),
    12,
  );
});
