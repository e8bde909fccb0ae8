import type { Source } from './source.js';

export const geometrySources = {
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
  densities: {
    title:
      'Densities of structural steel, austenitic stainless steel and aluminium as EN 1993-1-1, EN 10088-1 and EN 1999-1-1 give them',
    edition: null,
    kind: 'memory',
  },
  iso2553: {
    title: 'ISO 2553, symbols of welds: intermittent welds n x l (e), penetration depth s',
    edition: null,
    kind: 'memory',
  },
} as const satisfies Record<string, Source>;
