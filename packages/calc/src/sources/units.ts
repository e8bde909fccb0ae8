import type { Source } from './source.js';

export const unitSources = {
  exactUnits: {
    title: 'International yard and pound: inch 25.4 mm, foot 0.3048 m, pound 0.45359237 kg, exact',
    edition: '1959',
    kind: 'definition',
  },
} as const satisfies Record<string, Source>;
