export type { Analysis, ChemicalElement } from './analysis.js';
export { ceIiw, cet, pcm } from './carbon-equivalent.js';
export { coolingTime2d, coolingTime3d, transitionThickness } from './cooling-time.js';
export { preheatAws } from './preheat-aws.js';
export { combinedThickness, methodALimit, type HeatPath } from './preheat-method-a.js';
export { preheatMethodB } from './preheat-method-b.js';
export { shapeFactors, type WeldForm } from './shape-factors.js';
export { largestHeatInput, weldCoolingTime } from './weld-cooling.js';
