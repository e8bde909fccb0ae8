export type SourceKind = 'standard' | 'handbook' | 'practice' | 'memory' | 'definition';

export interface Source {
  title: string;
  edition: string | null;
  kind: SourceKind;
}

/**
 * The works that the calculations rest on. `memory` marks a standard that is quoted from memory and is to be
 * checked against the shop's own copy; `definition` marks plain geometry and arithmetic that needs no authority.
 */
export const sources = {
  geometry: {
    title: 'Plane geometry of the cross-section; mass = area x length x density',
    edition: null,
    kind: 'definition',
  },
  weldVolume: {
    title: 'Job Knowledge 95, Calculating weld volume and weight',
    edition: null,
    kind: 'handbook',
  },
  capShape: {
    title:
      'Filler-metal handbook, weight per metre of weld-metal elements: cap = 2/3 x width x height',
    edition: null,
    kind: 'handbook',
  },
  massBalance: {
    title: 'Mass balance: metal laid = wire fed x deposition efficiency',
    edition: null,
    kind: 'definition',
  },
  en1011: {
    title: 'EN 1011-1, heat-input clause and Table 1 (factor k)',
    edition: '2009',
    kind: 'standard',
  },
  isoTr18491: {
    title: 'ISO/TR 18491, arc energy from measured power or energy',
    edition: '2015',
    kind: 'standard',
  },
  iec60974: {
    title: 'IEC 60974-1, rating over a 10-minute cycle',
    edition: null,
    kind: 'standard',
  },
  dutyRule: {
    title: 'Square-root rule between two points of a rating plate: I2 = I1 x sqrt(X1 / X2)',
    edition: null,
    kind: 'practice',
  },
  evenArc: {
    title: 'Arc taken as spread evenly over the robot time of a cycle',
    edition: null,
    kind: 'practice',
  },
  idealGas: {
    title: 'Ideal gas: litres = water volume x pressure above the reserve',
    edition: null,
    kind: 'practice',
  },
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

export type SourceId = keyof typeof sources;
