import { expect, it } from 'vitest';
import { arcEnergy, heatInput } from '../../process/arc-energy.js';
import { valueOf } from '../../testing/value-of.js';
import { isoPosition } from './positions.js';
import { processLetters } from './processes.js';
import { shieldingGasSymbol, type GasMixture } from './shielding-gas.js';
import { yieldFromName } from './steel-names.js';

const nothing: GasMixture = { co2Pct: 0, o2Pct: 0, h2Pct: 0, hePct: 0, n2Pct: 0 };

const grid = 'druckgeraete-online.de (15 % split); other limits from memory';
const gases: [string, Partial<GasMixture>, string, string][] = [
  ['gas-82-18', { co2Pct: 18 }, 'M21', 'high'],
  ['gas-85-15', { co2Pct: 15 }, 'M20', 'high'],
  ['gas-92-8', { co2Pct: 8 }, 'M20', 'high'],
  ['gas-75-25', { co2Pct: 25 }, 'M21', 'high'],
  ['gas-70-30', { co2Pct: 30 }, 'M31', 'medium'],
  ['gas-98-2co2', { co2Pct: 2 }, 'M12', 'high'],
  ['gas-98-2o2', { o2Pct: 2 }, 'M13', 'high'],
  ['gas-co2', { co2Pct: 100 }, 'C1', 'high'],
  ['gas-argon', {}, 'I1', 'high'],
  ['gas-86-12-2', { co2Pct: 12, o2Pct: 2 }, 'M24', 'medium'],
  ['gas-arhe', { hePct: 30 }, 'I3', 'high'],
];
it.each(gases)(`printed: %s %o: %s (${grid}, %s)`, (_id, mixture, symbol) => {
  expect(shieldingGasSymbol({ ...nothing, ...mixture })).toBe(symbol);
});

it('pinned: names no symbol for what is no mixture', () => {
  expect(shieldingGasSymbol({ ...nothing, co2Pct: 101 })).toBe(null);
  expect(shieldingGasSymbol({ ...nothing, co2Pct: NaN })).toBe(null);
  expect(shieldingGasSymbol({ ...nothing, n2Pct: 2 })).toBe(null);
  expect(shieldingGasSymbol({ ...nothing, co2Pct: 60 })).toBe('Z');
  expect(shieldingGasSymbol({ ...nothing, h2Pct: 5 })).toBe('R1');
});

it.each([
  ['pos-1G', '1G', 'PA'],
  ['pos-2G', '2G', 'PC'],
  ['pos-3G-up', '3G up', 'PF'],
  ['pos-3G-down', '3G down', 'PG'],
  ['pos-4G', '4G', 'PE'],
  ['pos-5G-up', '5G up', 'PH'],
  ['pos-6G-up', '6G up', 'H-L045'],
  ['pos-2F', '2F', 'PB'],
  ['pos-4F', '4F', 'PD'],
])('printed: %s %s: %s (ISO 6947 charts, high)', (_id, code, position) => {
  expect(isoPosition(code)).toBe(position);
});
it('gives no position without its progression, nor where there is no twin', () => {
  expect(['3G', '5G', '6G', '6GR up', 'PA'].map(isoPosition)).toEqual(Array(5).fill(null));
});

it.each([
  ['proc-135', '135', 'GMAW'],
  ['proc-136', '136', 'FCAW'],
  ['proc-138', '138', 'GMAW'],
  ['proc-111', '111', 'SMAW'],
  ['proc-121', '121', 'SAW'],
  ['proc-141', '141', 'GTAW'],
  ['proc-114', '114', 'FCAW'],
])('printed: %s (ISO 4063 lists; AWS A3.0, high)', (_id, number, name) => {
  expect(processLetters(number)).toBe(name);
  expect(processLetters(name.toLowerCase())).toBe(name);
});

it('arc-energy, heat-input-k (ISO/TR 18491; EN 1011-1; from memory, high)', () => {
  const run = { voltageV: 24, currentA: 200, travelMmMin: 5 * 60 };
  expect(valueOf(arcEnergy(run))).toBeCloseTo(0.96, 9);
  expect(valueOf(heatInput({ ...run, process: '135' }))).toBeCloseTo(0.768, 9);
});

it.each([
  ['S235JR', 235],
  ['S275JR', 275],
  ['S355J2+N', 355],
  ['S355MC', 355],
  ['S460N', 460],
  ['S500MC', 500],
  ['S690Q', 690],
  ['S 700 MC', 700],
  ['P265GH', 265],
  ['P355GH', 355],
])(
  'printed: %s has a yield of %i MPa (EN 10025, EN 10028, EN 10149: the number is the yield)',
  (name, mpa) => {
    expect(yieldFromName(name)).toBe(mpa);
  },
);
it.each(['1.4404', 'A36', 'SA-36', 'S32205', 'P91', 'DC01', 'C45', ''])(
  'reads no yield from "%s"',
  (name) => {
    expect(yieldFromName(name)).toBe(null);
  },
);
