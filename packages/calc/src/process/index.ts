export * from './arc-energy.js';
export * from './bead.js';
export { currentSuggestion, wireSpeedSuggestion } from './current.js';
export {
  depositionBand,
  depositionFromWeighing,
  measuredEfficiency,
  meltOffRate,
  wireLengthPerKg,
} from './deposition.js';
export { allowedCurrent, averageDuty, permittedDuty } from './duty.js';
export { chainCurrent, plateCurrent, type PlatePoint } from './duty-plate.js';
export { worstTenMinuteDuty, worstWindowDuty, type CyclePiece } from './duty-window.js';
export { electricityDrawn, electricityPerKg } from './electricity.js';
export * from './gas.js';
export { filletRuns, runsForArea } from './runs.js';
export { electrodesForMetal, stickEfficiency } from './stick.js';
export { assumedWireEfficiency, depositionRate, wireForMetal, wireMassPerMetre } from './wire.js';
