import type { DrawnShape } from './drawn-shapes.js';

/** The shape as the data of an SVG path, in mm. */
export function svgPath({ points, closed }: DrawnShape): string {
  const steps = points.map(({ x, y }, at) => `${at === 0 ? 'M' : 'L'}${mm(x)} ${mm(y)}`);
  return steps.join(' ') + (closed ? ' Z' : '');
}

/** A thousandth of a millimetre is finer than any screen. */
function mm(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}
