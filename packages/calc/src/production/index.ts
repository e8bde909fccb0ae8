export * from './break-even.js';
export * from './consumables.js';
export * from './cycle.js';
export * from './takt.js';
export * from './week.js';
