import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as calc from './index.js';

/** Every calculation with good arguments; each argument is then replaced by every bad one. */
const good = {
  filletArea: { run: calc.filletArea, args: { throatMm: 4 } },
  filletAreaByLeg: { run: calc.filletArea, args: { legMm: 6, secondLegMm: 8 } },
  filletThroat: { run: calc.filletThroat, args: { legMm: 6, secondLegMm: 8 } },
  filletLeg: { run: calc.filletLeg, args: { throatMm: 4 } },
  depositedMass: {
    run: calc.depositedMass,
    args: { areaMm2: 16, lengthMm: 960, densityKgM3: 7850 },
  },
  capArea: { run: calc.capArea, args: { widthMm: 8, heightMm: 1 } },
  wireMassPerMetre: {
    run: calc.wireMassPerMetre,
    args: { wireDiameterMm: 1.2, densityKgM3: 7850 },
  },
  depositionRate: {
    run: calc.depositionRate,
    args: { wireDiameterMm: 1.2, wireSpeedMMin: 9, efficiency: 0.96, densityKgM3: 7850 },
  },
  wireForMetal: {
    run: calc.wireForMetal,
    args: { massKg: 1, efficiency: 0.96, overWeldShare: 0.1 },
  },
  throatFromSettings: {
    run: calc.throatFromSettings,
    args: { wireDiameterMm: 1.2, wireSpeedMMin: 9, travelMmMin: 520, efficiency: 0.96 },
  },
  travelForThroat: {
    run: calc.travelForThroat,
    args: {
      wireDiameterMm: 1.2,
      wireSpeedMMin: 9,
      efficiency: 0.96,
      throatMm: 4,
      extraAreaShare: 0,
    },
  },
  arcEnergy: { run: calc.arcEnergy, args: { currentA: 255, voltageV: 26.5, travelMmMin: 520 } },
  heatInput: {
    run: (args: { currentA: number; voltageV: number; travelMmMin: number }) =>
      calc.heatInput({ ...args, process: '135' }),
    args: { currentA: 255, voltageV: 26.5, travelMmMin: 520 },
  },
  arcEnergyFromPower: { run: calc.arcEnergyFromPower, args: { powerW: 6500, travelMmMin: 450 } },
  arcEnergyFromEnergy: { run: calc.arcEnergyFromEnergy, args: { energyJ: 54_000, lengthMm: 60 } },
  gasPerMetre: { run: calc.gasPerMetre, args: { gasFlowLMin: 15, travelMmMin: 450 } },
  gasPerKg: { run: calc.gasPerKg, args: { gasFlowLMin: 15, depositionKgH: 4 } },
  cylinderGas: {
    run: calc.cylinderGas,
    args: { waterVolumeL: 50, pressureBar: 200, reserveBar: 5 },
  },
  averageDuty: { run: calc.averageDuty, args: { arcS: 110, cycleS: 250 } },
  worstTenMinuteDuty: {
    run: calc.worstTenMinuteDuty,
    args: { arcS: 110, robotS: 158, cycleS: 250 },
  },
  allowedCurrent: {
    run: calc.allowedCurrent,
    args: { ratedA: 250, ratedDutyPct: 60, dutyPct: 48, maxA: 300 },
  },
  permittedDuty: {
    run: calc.permittedDuty,
    args: { ratedA: 250, ratedDutyPct: 60, currentA: 280 },
  },
  arcTime: { run: calc.arcTime, args: { lengthMm: 960, travelMmMin: 520 } },
  batchTime: {
    run: calc.batchTime,
    args: { setUpMin: 25, firstPieceMin: 15, quantity: 12, cycleS: 250, yieldShare: 0.98 },
  },
  taktTime: { run: calc.taktTime, args: { availableMin: 400, demand: 80 } },
  taktShortfall: { run: calc.taktShortfall, args: { availableMin: 400, demand: 80, cycleS: 310 } },
  batchWire: {
    run: calc.batchWire,
    args: {
      wireDiameterMm: 1.2,
      wireSpeedMMin: 9,
      arcS: 110,
      quantity: 12,
      onFeederKg: 3.2,
      densityKgM3: 7850,
    },
  },
  batchGas: {
    run: calc.batchGas,
    args: {
      gasFlowLMin: 15,
      arcS: 110,
      weldCount: 8,
      prePostS: 1,
      quantity: 12,
      lossFactor: 1.2,
      availableL: 600,
    },
  },
  breakEven: {
    run: calc.breakEven,
    args: {
      robotFixedMin: 40,
      boothFixedMin: 20,
      robotUnitMin: 4.2,
      boothUnitMin: 9.5,
      programmingMin: 0,
      expectedBatches: 1,
    },
  },
};

type Run = (args: Record<string, unknown>) => calc.Calculation<object>;
type Entry = readonly [name: string, run: Run, args: Record<string, number>];
const entries = Object.entries(good).map(
  ([name, { run, args }]) => [name, run as unknown as Run, args as Record<string, number>] as const,
) satisfies readonly Entry[];

const impossible = [NaN, Infinity, -Infinity, -1, 1e300, '4', null, {}, true];

describe.each(entries)('%s', (_name, run, args) => {
  it('gives a finite figure with its unit, inputs and sources that are on the register', () => {
    const result = run(args);
    if (!result.ok) throw new Error(JSON.stringify(result.refusal));
    expect(Number.isFinite(result.value)).toBe(true);
    expect(result.unit).not.toBe('');
    expect(result.inputs).toMatchObject(args);
    expect(result.sources.length).toBeGreaterThan(0);
    for (const id of result.sources) expect(calc.sources).toHaveProperty(id);
  });

  it('refuses every impossible argument by its name, and says what is allowed', () => {
    for (const argument of Object.keys(args)) {
      for (const given of impossible) {
        // Null stands for a stock that nobody knows.
        if (given === null && ['onFeederKg', 'availableL'].includes(argument)) continue;
        const result = run({ ...args, [argument]: given });
        expect(result, `${argument} = ${String(given)}`).toMatchObject({
          ok: false,
          refusal: { argument, given },
        });
        expect(result.ok ? '' : result.refusal.allowed).toMatch(/number|more|less/);
      }
    }
  });

  it('never gives a figure that is not a number, whatever it is given', () => {
    const anyArgs = fc.record(
      Object.fromEntries(Object.keys(args).map((name) => [name, fc.oneof(fc.double(), fc.nat())])),
    );
    fc.assert(
      fc.property(anyArgs, (given) => {
        const result = run(given);
        expect(result.ok ? Number.isFinite(result.value) : true).toBe(true);
      }),
    );
  });
});
