export { wpsBreaches } from './wps-breaches.js';
export type { BreachVariable, Stated, SupportingWpqr, WpsBreach } from './wps-breaches.js';
export { coveragePicture } from './coverage-picture.js';
export type { CoverageCell, Holder, NeededWeld, ProcessCoverage } from './coverage-picture.js';
export { findProcedures } from './finder.js';
export type { FoundProcedure, WeldCoverage, WeldToCover } from './finder.js';
