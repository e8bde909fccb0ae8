export * from './arc-energy.js';
export * from './bead.js';
export * from './duty.js';
export * from './gas.js';
export { depositionRate, wireForMetal, wireMassPerMetre } from './wire.js';
