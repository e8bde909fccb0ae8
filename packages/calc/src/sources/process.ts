import type { Source } from './source.js';

export const processSources = {
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
  efficiencyTables: {
    title: 'Filler-metal handbook and wire data sheets, deposition efficiency by process',
    edition: null,
    kind: 'handbook',
  },
  depositionRanges: {
    title: 'Job Knowledge 97, deposition rates of arc processes',
    edition: null,
    kind: 'handbook',
  },
  stubLoss: {
    title: 'Filler-metal handbook, lesson IX, efficiency of covered electrodes with stub loss',
    edition: null,
    kind: 'handbook',
  },
  singleRun: {
    title: 'AWS D1.1, largest fillet in one run of a prequalified procedure',
    edition: null,
    kind: 'memory',
  },
  meltingRate: {
    title:
      'Melting rate of a fed wire: alpha x I + beta x extension x I^2, coefficients of 1.2 mm steel',
    edition: null,
    kind: 'memory',
  },
  energyBalance: {
    title: 'Energy balance: mains energy = arc energy / efficiency of the source, and idling',
    edition: null,
    kind: 'definition',
  },
  gasLoss: {
    title: 'Loss factor of a cell: gas used / gas calculated over the same time',
    edition: null,
    kind: 'definition',
  },
} as const satisfies Record<string, Source>;
