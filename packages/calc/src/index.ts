export type {
  ArgumentRefusal,
  Calculation,
  CalculationInParts,
  Refused,
  Warning,
  WarningCode,
} from './result.js';
export * from './sources.js';
export * from './process/arc-energy.js';
export * from './qualification/answer.js';
export * from './qualification/fit.js';
export * from './qualification/policy.js';
export type { Range } from './qualification/range.js';
