import type { Source } from './source.js';

export const metallurgySources = {
  carbonEquivalents: {
    title:
      'CE(IIW), CET and Pcm as a steel maker prints them; CE and CET also in EN 1011-2, C.2 and C.3',
    edition: null,
    kind: 'handbook',
  },
  cetRange: {
    title: 'EN 1011-2, range of composition of CET, at second hand',
    edition: '2001',
    clause: 'Annex C, C.3',
    kind: 'memory',
  },
  en1011MethodA: {
    title: 'EN 1011-2, method A: combined thickness weldable without preheat',
    edition: '2001 + A1',
    clause: 'Annex C, C.2 and Table C.1',
    kind: 'standard',
  },
  en1011MethodB: {
    title:
      'EN 1011-2, method B: preheat from CET, thickness, hydrogen and heat input; read at second hand',
    edition: '2001',
    clause: 'Annex C, C.3',
    kind: 'standard',
  },
  methodBRange: {
    title: 'EN 1011-2, method B, range of its arguments',
    edition: '2001',
    clause: 'Annex C, C.3',
    kind: 'memory',
  },
  sew088: {
    title:
      'SEW 088 Beiblatt 1, the same relation with rounded constants, and yields of 300 to 1000 MPa',
    edition: null,
    kind: 'handbook',
  },
  steelMakerHandbook: {
    title:
      "A steel maker's welding handbook, 2nd edition, page 17: t8/5 formulas 3.1 and 3.2; the thicker plate and weld metal CET + 0.03",
    edition: '2',
    kind: 'handbook',
  },
  coolingTime: {
    title: 'EN 1011-2, cooling time t8/5; SEW 088 Beiblatt 2 has the same formulas',
    edition: '2001',
    clause: 'Annex D',
    kind: 'standard',
  },
  shapeFactors: {
    title:
      'Shape factors F2 and F3 of EN 1011-2 Annex D, from a German copy with gaps, the rest from memory',
    edition: null,
    kind: 'memory',
  },
  awsPreheat: {
    title: 'AWS D1.1, minimum preheat and interpass temperature; US Army TI 809-26, Table 3-1',
    edition: '2015 and 2020',
    clause: 'Table 3.3 (2015), Table 5.8 (2020)',
    kind: 'standard',
  },
  awsLeastFillet: {
    title: 'AWS D1.1, minimum fillet weld size',
    edition: '2015 and 2020',
    clause: 'Table 5.7 (2015), Table 7.7 (2020)',
    kind: 'standard',
  },
  iso5817: {
    title: 'ISO 5817, excess weld metal and excessive convexity by quality level',
    edition: '2003, taken over in 2007; later editions to be checked',
    clause: 'Table 1, Nos 1.9 and 1.10',
    kind: 'standard',
  },
} as const satisfies Record<string, Source>;
