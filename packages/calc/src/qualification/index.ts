export * from './answer.js';
export * from './fit.js';
export * from './policy.js';
export type { Range } from './range.js';
