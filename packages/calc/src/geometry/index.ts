export {
  capArea,
  depositedMass,
  intermittentLength,
  weldDeposit,
  weldMetalDensities,
  type WeldMetal,
} from './deposit.js';
export { filletArea, filletLeg, filletThroat, type FilletSize } from './fillet.js';
export { filletSection, type FilletSection } from './fillet-section.js';
export { grooveArea, type Groove, type GrooveCap } from './groove.js';
export { holeArea, type Hole } from './hole.js';
export { preparedGroove, type GroovePreparation } from './prepared-groove.js';
export { jointDrawing } from './joint-drawing.js';
export { arcLengthMm, type RunWeld } from './arc-length.js';
export {
  filletOfWeld,
  holeOfWeld,
  jointOfWeld,
  laidAreaOf,
  type JointWeld,
} from './joint-of-weld.js';
export { svgPath } from './svg-path.js';
export type { DrawnJoint, DrawnShape, JointDrawing } from './drawn-shapes.js';
export { excessLimit, excessRules } from './excess-weld-metal.js';
export { leastFilletLeg, overWelding } from './size-rules.js';
