import { describe, expect, it } from 'vitest';
import { isoPosition, usWeldPosition } from './positions.js';
import { isShortCircuit, processLetters } from './processes.js';
import { shieldingGasSymbol, type GasMixture } from './shielding-gas.js';

const none: GasMixture = { co2Pct: 0, o2Pct: 0, h2Pct: 0, hePct: 0, n2Pct: 0 };

describe('memory, ISO 14175:2008, to be held against the shop’s own copy: the limits of its mixtures', () => {
  it.each<[symbol: string, mixture: Partial<GasMixture>]>([
    ['I1', {}],
    ['I2', { hePct: 100 }],
    ['I3', { hePct: 0.5 }],
    ['I3', { hePct: 95 }],
    ['Z', { hePct: 0.4 }],
    ['Z', { hePct: 96 }],
    ['M12', { co2Pct: 5 }],
    ['Z', { co2Pct: 0.5 }],
    ['M20', { co2Pct: 5.1 }],
    ['M20', { co2Pct: 15 }],
    ['M21', { co2Pct: 15.1 }],
    ['M21', { co2Pct: 25 }],
    ['M31', { co2Pct: 25.1 }],
    ['M31', { co2Pct: 50 }],
    ['Z', { co2Pct: 50.1 }],
    ['M13', { o2Pct: 3 }],
    ['Z', { o2Pct: 0.5 }],
    ['M22', { o2Pct: 3.1 }],
    ['M22', { o2Pct: 10 }],
    ['M32', { o2Pct: 10.1 }],
    ['M32', { o2Pct: 15 }],
    ['Z', { o2Pct: 15.1 }],
    ['M14', { co2Pct: 3, o2Pct: 2 }],
    ['M23', { co2Pct: 3, o2Pct: 8 }],
    ['M24', { co2Pct: 10, o2Pct: 2 }],
    ['M25', { co2Pct: 10, o2Pct: 8 }],
    ['M26', { co2Pct: 20, o2Pct: 2 }],
    ['M27', { co2Pct: 20, o2Pct: 8 }],
    ['M33', { co2Pct: 30, o2Pct: 8 }],
    ['Z', { co2Pct: 30, o2Pct: 2 }],
    ['M34', { co2Pct: 10, o2Pct: 12 }],
    ['M34', { co2Pct: 25, o2Pct: 12 }],
    ['M35', { co2Pct: 30, o2Pct: 12 }],
    ['C1', { co2Pct: 100 }],
    ['O1', { o2Pct: 100 }],
    ['C2', { co2Pct: 99, o2Pct: 1 }],
    ['C2', { co2Pct: 70, o2Pct: 30 }],
    ['Z', { co2Pct: 69, o2Pct: 31 }],
    ['Z', { co2Pct: 99.5, o2Pct: 0.5 }],
    ['M11', { co2Pct: 5, h2Pct: 5 }],
    ['Z', { co2Pct: 5.1, h2Pct: 5 }],
    ['Z', { co2Pct: 0.5, h2Pct: 5 }],
    ['Z', { co2Pct: 5, h2Pct: 5.1 }],
    ['Z', { co2Pct: 5, h2Pct: 0.5 }],
    ['Z', { co2Pct: 3, o2Pct: 1, h2Pct: 3 }],
    ['Z', { o2Pct: 3, h2Pct: 3 }],
    ['R1', { h2Pct: 0.5 }],
    ['R1', { h2Pct: 15 }],
    ['R2', { h2Pct: 15.1 }],
    ['R2', { h2Pct: 50 }],
    ['Z', { h2Pct: 50.1 }],
    ['Z', { h2Pct: 0.4 }],
  ])('memory: %s for %j', (symbol, mixture) => {
    expect(shieldingGasSymbol({ ...none, ...mixture })).toBe(symbol);
  });

  it('gives none for shares that are none, that are more than the whole, or with nitrogen', () => {
    for (const odd of [{ co2Pct: -1 }, { o2Pct: NaN }, { co2Pct: 60, o2Pct: 41 }, { n2Pct: 2 }])
      expect(shieldingGasSymbol({ ...none, ...odd })).toBeNull();
  });
});

describe('memory, ISO 6947 beside the US positions', () => {
  it.each([
    ...[['1G', 'PA'] as const, ['2G', 'PC'] as const, ['3G up', 'PF'] as const],
    ...[['3G down', 'PG'] as const, ['4G', 'PE'] as const, ['5G up', 'PH'] as const],
    ...[['5G down', 'PJ'] as const, ['5G orbital', 'PK'] as const],
    ...[['6G up', 'H-L045'] as const, ['6G down', 'J-L045'] as const],
    ...[['1F', 'PA'] as const, ['2F', 'PB'] as const, ['2FR', 'PB'] as const],
    ...[['3F up', 'PF'] as const, ['3F down', 'PG'] as const, ['4F', 'PD'] as const],
    ...[['5F up', 'PH'] as const, ['5F down', 'PJ'] as const],
    ...[[' 3g   UP ', 'PF'] as const, ['6GR', null] as const, ['3G', null] as const],
  ])('memory: %s is %s', (us, iso) => {
    expect(isoPosition(us)).toBe(iso);
  });

  it.each([
    ['PA', 'F'],
    ['PB', 'H'],
    ['PC', 'H'],
    ['PD', 'O'],
    ['PE', 'O'],
    ['PF', 'V'],
    [' pa ', 'F'],
    ['PG', null],
    ['PH', null],
  ])('memory: a weld in %s is %s', (iso, us) => {
    expect(usWeldPosition(iso)).toBe(us);
  });
});

describe('memory, ISO 4063 beside AWS A3.0', () => {
  it.each([
    ['SMAW', ['111']],
    ['FCAW', ['114', '132', '136']],
    ['SAW', ['121', '122', '124', '125', '126']],
    ['GMAW', ['131', '133', '135', '138', 'gmaw', 'GMAW-S', ' GMAW ']],
    ['GTAW', ['141', '142', '143', '145']],
    ['PAW', ['15']],
    ['OFW', ['311']],
    [null, ['999', '', 'S']],
  ])('memory: %s are %j', (letters, numbers) => {
    for (const number of numbers) expect(processLetters(number)).toBe(letters);
    expect(processLetters(null)).toBeNull();
  });

  it('knows a short circuit by the name of the process or by its transfer', () => {
    const short = (process: string | null, transfer: string | null) =>
      isShortCircuit({ process, transfer });
    expect([short('GMAW-S', null), short(' gmaw-s ', 'S'), short('135', 'D')]).toEqual([
      ...[true, true, true],
    ]);
    expect([short('135', 'S'), short('141', 'D'), short('111', null)]).toEqual([
      ...[false, false, false],
    ]);
    expect([short('135', null), short(null, 'D'), short('999', 'D')]).toEqual([null, null, null]);
  });
});
