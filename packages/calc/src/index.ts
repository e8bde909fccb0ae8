export type {
  ArgumentRefusal,
  Calculation,
  CalculationInParts,
  Refused,
  Warning,
  WarningCode,
} from './result.js';
export * from './sources.js';
export { steelDensityKgM3 } from './quantities.js';
export * from './geometry/deposit.js';
export * from './geometry/fillet.js';
export * from './process/arc-energy.js';
export * from './process/bead.js';
export * from './process/duty.js';
export * from './process/gas.js';
export { depositionRate, wireForMetal, wireMassPerMetre } from './process/wire.js';
export * from './production/break-even.js';
export * from './production/consumables.js';
export * from './production/cycle.js';
export * from './production/takt.js';
export * from './production/week.js';
export * from './qualification/answer.js';
export * from './qualification/fit.js';
export * from './qualification/policy.js';
export type { Range } from './qualification/range.js';
