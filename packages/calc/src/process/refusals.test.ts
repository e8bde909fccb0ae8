import { accepted, refusesTheImpossible } from '../testing/refusal-suite.js';
import { heatInputFromArcEnergy } from './arc-energy.js';
import { currentSuggestion, wireSpeedSuggestion } from './current.js';
import {
  depositionBand,
  depositionFromWeighing,
  measuredEfficiency,
  meltOffRate,
  wireLengthPerKg,
} from './deposition.js';
import { plateCurrent } from './duty-plate.js';
import { worstWindowDuty } from './duty-window.js';
import { electricityDrawn, electricityPerKg } from './electricity.js';
import { gasLossFactor, weldGas } from './gas.js';
import { filletRuns, runsForArea } from './runs.js';
import { electrodesForMetal, stickEfficiency } from './stick.js';

const power = { currentA: 250, voltageV: 27, sourceEfficiency: 0.85 };
const stub = { efficiency: 0.62, electrodeMm: 350, stubMm: 50 };

refusesTheImpossible({
  heatInputFromArcEnergy: accepted(heatInputFromArcEnergy, { arcEnergyKjMm: 0.9, process: '135' }),
  wireSpeedSuggestion: accepted(wireSpeedSuggestion, {
    ...{ wireDiameterMm: 1.2, currentA: 250, extensionMm: 15 },
  }),
  currentSuggestion: accepted(currentSuggestion, {
    ...{ wireDiameterMm: 1.2, wireSpeedMMin: 8, extensionMm: 15 },
  }),
  depositionBand: accepted(depositionBand, {
    ...{ process: '135', wireDiameterMm: 1.2, wireSpeedMMin: 8, densityKgM3: 7850 },
  }),
  meltOffRate: accepted(meltOffRate, { wireGM: 7.5, wireSpeedMMin: 8 }),
  depositionFromWeighing: accepted(depositionFromWeighing, {
    ...{ beforeG: 2000, afterG: 2095, arcS: 60 },
  }),
  measuredEfficiency: accepted(measuredEfficiency, { laidKg: 2.4, meltedKg: 2.7 }),
  wireLengthPerKg: accepted(wireLengthPerKg, { wireDiameterMm: 1.2, densityKgM3: 7850 }),
  stickEfficiency: accepted(stickEfficiency, stub),
  electrodesForMetal: accepted(electrodesForMetal, { ...stub, massKg: 1, electrodeMassG: 36 }),
  filletRuns: accepted(filletRuns, { process: '135', position: 'PB', legMm: 12, limitLegMm: 8 }),
  runsForArea: accepted(runsForArea, { areaMm2: 107, runAreaMm2: 40 }),
  weldGas: accepted(weldGas, {
    ...{ gasFlowLMin: 15, arcS: 110, starts: 8, preFlowS: 0.5, postFlowS: 1, lossFactor: 1.2 },
  }),
  gasLossFactor: accepted(gasLossFactor, { usedL: 9600, calculatedL: 8000 }),
  electricityDrawn: accepted(electricityDrawn, { ...power, arcS: 110, idleW: 50, idleS: 140 }),
  electricityPerKg: accepted(electricityPerKg, { ...power, depositionKgH: 4 }),
  plateCurrent: accepted(plateCurrent, { points: [{ dutyPct: 60, currentA: 250 }], dutyPct: 70 }),
  worstWindowDuty: accepted(worstWindowDuty, {
    pieces: [
      { arc: true, durationS: 110 },
      { arc: false, durationS: 140 },
    ],
  }),
});
