import type { Source } from './source.js';

export const calendarSources = {
  calendarWalk: {
    title:
      'Work of a window = its minutes x the share of them that becomes work; a queue takes the windows in order',
    edition: null,
    kind: 'definition',
  },
} as const satisfies Record<string, Source>;
