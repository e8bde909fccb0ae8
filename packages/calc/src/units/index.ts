export { convertUnit } from './convert.js';
export { entryKinds, entryText, readEntry, type EntryKind, type EntryParts } from './entry.js';
export { readDecimal } from './number-text.js';
export {
  settingQuestions,
  type AskedSettings,
  type Question,
  type QuestionCode,
  type TypedIn,
} from './plausibility.js';
export { stripScale, withinBand } from './strip-scale.js';
export { converted, unitsLike, type UnitName } from './units.js';
