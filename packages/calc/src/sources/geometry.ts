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
} as const satisfies Record<string, Source>;
