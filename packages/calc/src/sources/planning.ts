import type { Source } from './source.js';

export const planningSources = {
  weightedTardiness: {
    title:
      'Total weighted tardiness: sum over the steps of weight x minutes finished after the due time',
    edition: null,
    kind: 'definition',
  },
  apparentTardiness: {
    title:
      'Lee, Bhaskaran and Pinedo, A heuristic to minimize the total weighted tardiness with sequence-dependent setups, IIE Transactions 29',
    edition: '1997',
    kind: 'memory',
  },
  iteratedLocalSearch: {
    title:
      'Lourenço, Martin and Stützle, Iterated local search, in Handbook of Metaheuristics: local search from shaken orders',
    edition: '2003',
    kind: 'memory',
  },
  linearOrderCrossOver: {
    title: 'Falkenauer and Bouffouix, A genetic algorithm for job shop: linear order cross-over',
    edition: '1991',
    kind: 'memory',
  },
  lateAcceptance: {
    title:
      'Burke and Bykov, The late acceptance hill-climbing heuristic, European Journal of Operational Research 258',
    edition: '2017',
    kind: 'memory',
  },
} as const satisfies Record<string, Source>;
