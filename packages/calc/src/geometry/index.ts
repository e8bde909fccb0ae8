export * from './deposit.js';
export * from './fillet.js';
