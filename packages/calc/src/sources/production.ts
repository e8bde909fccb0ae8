import type { Source } from './source.js';

export const productionSources = {
  timeSum: {
    title: 'Sum of the elements of a cycle; arc time = length / travel speed',
    edition: null,
    kind: 'definition',
  },
  takt: {
    title: 'Takt = available time, breaks and planned stops taken out, / demand of the same period',
    edition: null,
    kind: 'definition',
  },
  breakEven: {
    title: 'Break-even quantity = difference of fixed times / difference of unit times, rounded up',
    edition: null,
    kind: 'definition',
  },
  arcShare: {
    title:
      'Arc time over planned, staffed and running time; the lost time closes to the planned time',
    edition: null,
    kind: 'definition',
  },
  iso22400: {
    title: 'ISO 22400-2, words for the times of a work unit',
    edition: null,
    kind: 'memory',
  },
} as const satisfies Record<string, Source>;
