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
  yield: {
    title:
      'Yield = good parts / parts made; parts to start = good parts wanted / yield, rounded up',
    edition: null,
    kind: 'definition',
  },
  partCost: {
    title: 'Sum of what a batch took, time x rate and quantity x price, over its good parts',
    edition: null,
    kind: 'definition',
  },
  depositCost: {
    title:
      'Cost of weld metal and pay-back of an outlay, worksheet in a filler-metal course on cost',
    edition: null,
    kind: 'handbook',
  },
  operatorFactor: {
    title:
      'Operator factor = arc time / whole time; usual factors in a handbook of structural steel connections, page 231, and a filler-metal worksheet',
    edition: null,
    kind: 'handbook',
  },
  learningCurve: {
    title:
      'Learning curve: Wright, Factors affecting the cost of airplanes, for the average of all parts; Crawford for the single part',
    edition: '1936',
    kind: 'handbook',
  },
  pastRuns: {
    title:
      'Median and percentiles, Hyndman and Fan, Sample quantiles in statistical packages, definition 7',
    edition: '1996',
    kind: 'handbook',
  },
} as const satisfies Record<string, Source>;
