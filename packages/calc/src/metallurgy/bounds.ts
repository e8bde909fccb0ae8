import type { Bound } from '../result.js';

/** What is possible at all; the range that a method was made for stands beside the method. */
export const metalBounds = {
  carbonEquivalentPct: { min: 0.01, max: 10, unit: '%' },
  thicknessMm: { min: 0.1, max: 1_000, unit: 'mm' },
  hydrogenMlPer100g: { min: 0, max: 200, unit: 'ml/100 g' },
  heatInputKjMm: { min: 0.00001, max: 100, unit: 'kJ/mm' },
  yieldMpa: { min: 1, max: 5_000, unit: 'MPa' },
  temperatureC: { min: -273.15, max: 1_500, unit: 'degC' },
  coolingS: { min: 0.01, max: 100_000, unit: 's' },
  shapeFactor: { min: 0.1, max: 2, unit: '' },
} as const satisfies Record<string, Bound>;
