import { calendarSources } from './calendar.js';
import { geometrySources } from './geometry.js';
import { metallurgySources } from './metallurgy.js';
import { planningSources } from './planning.js';
import { processSources } from './process.js';
import { productionSources } from './production.js';
import { qualificationSources } from './qualification.js';
import { unitSources } from './units.js';

export type { Source, SourceKind } from './source.js';

/**
 * The works that the calculations rest on. `memory` marks a standard that is quoted from memory and is to be
 * checked against the shop's own copy; `definition` marks plain geometry and arithmetic that needs no authority.
 */
export const sources = {
  ...calendarSources,
  ...geometrySources,
  ...metallurgySources,
  ...planningSources,
  ...processSources,
  ...productionSources,
  ...qualificationSources,
  ...unitSources,
} as const;

export type SourceId = keyof typeof sources;
