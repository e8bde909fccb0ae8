export * from './answer.js';
export * from './codes/index.js';
export { isoPosition } from './designations/positions.js';
export { processLetters } from './designations/processes.js';
export { shieldingGasSymbol, type GasMixture } from './designations/shielding-gas.js';
export * from './fit.js';
export * from './policy.js';
export type { Range } from './range.js';
