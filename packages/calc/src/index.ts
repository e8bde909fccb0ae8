export type {
  ArgumentRefusal,
  Bound,
  Calculation,
  CalculationInParts,
  Refused,
  Warning,
  WarningCode,
} from './result.js';
export { steelDensityKgM3 } from './quantities.js';
export * from './sources/index.js';
export * from './calendar/index.js';
export * from './geometry/index.js';
export * from './metallurgy/index.js';
export * from './planning/index.js';
export * from './process/index.js';
export * from './production/index.js';
export * from './qualification/index.js';
export * from './units/index.js';
