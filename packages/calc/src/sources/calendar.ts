import type { Source } from './source.js';

export const calendarSources = {
  calendarWalk: {
    title:
      'Work of a window = its minutes x the share of them that becomes work; a queue takes the windows in order',
    edition: null,
    kind: 'definition',
  },
  dueLoad: {
    title:
      'Asked of a period = the work due in it and what the periods before could not hold, over its working time',
    edition: null,
    kind: 'definition',
  },
  stockBalance: {
    title: 'Short = drawn less what hangs at the cell and what is left in store',
    edition: null,
    kind: 'definition',
  },
} as const satisfies Record<string, Source>;
