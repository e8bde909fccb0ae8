import * as calc from './index.js';
import { accepted, refusesTheImpossible } from './testing/refusal-suite.js';

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

const table = Object.fromEntries(
  Object.entries(good).map(([name, { run, args }]) => [name, accepted(run as never, args)]),
);

// Null stands for a stock that nobody knows.
refusesTheImpossible(table, {
  null: ['onFeederKg', 'availableL'],
  nought: [
    ...['arcS', 'loadS', 'prePostS', 'onFeederKg', 'availableL', 'overWeldShare'],
    ...['extraAreaShare', 'massKg', 'heightMm', 'setUpMin', 'firstPieceMin', 'pressureBar'],
    ...['robotFixedMin', 'boothFixedMin', 'programmingMin'],
  ],
});
