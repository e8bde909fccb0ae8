import type { WpqrDraft } from './wpqr-draft.js';

/** The texts of a record in the order of a printed sheet. */
export const textFields = [
  { key: 'number', required: true },
  { key: 'code', required: true },
  { key: 'edition', required: true },
  { key: 'level', required: false },
  { key: 'process', required: true },
  { key: 'filler', required: true },
  { key: 'gas', required: true },
  { key: 'transfer', required: false },
  { key: 'examiner', required: true },
] as const satisfies readonly { key: keyof WpqrDraft; required: boolean }[];

/** What was measured while the test piece was welded. */
export const testedFields = [
  { key: 'currentA', unit: 'A' },
  { key: 'voltageV', unit: 'V' },
  { key: 'wireSpeedMMin', unit: 'm/min' },
  { key: 'travelMmMin', unit: 'mm/min' },
  { key: 'heatInputKjMm', unit: 'kJ/mm' },
  { key: 'preheatC', unit: '°C' },
  { key: 'interpassC', unit: '°C' },
] as const satisfies readonly { key: keyof WpqrDraft['testedValues']; unit: string }[];
