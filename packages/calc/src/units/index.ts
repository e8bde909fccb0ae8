export { convertUnit } from './convert.js';
export { entryKinds, readEntry, type EntryKind, type EntryParts } from './entry.js';
export { readDecimal } from './number-text.js';
export {
  settingQuestions,
  type AskedSettings,
  type Question,
  type QuestionCode,
} from './plausibility.js';
export { stripScale, withinBand } from './strip-scale.js';
export { unitsLike, type UnitName } from './units.js';
