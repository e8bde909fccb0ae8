import type { BodyOf, parts } from '@tackboard/contract';

type WeldInput = BodyOf<typeof parts.setWelds>['welds'][number];
type StepInput = BodyOf<typeof parts.setSteps>['steps'][number];

export interface DemoWeld {
  readonly joint: WeldInput['jointType'];
  readonly throatMm: number | null;
  readonly lengthMm: number;
  readonly count: number;
  readonly position: WeldInput['position'];
}

export interface DemoSetUp {
  readonly cell: string;
  readonly wire: string;
  readonly gas: string;
  readonly currentA: number;
  readonly voltageV: number;
  readonly wireSpeedMMin: number | null;
  readonly travelMmMin: number;
  readonly gasFlowLMin: number;
  readonly preheatC?: number;
  readonly watchOuts: readonly string[];
}

/** A family of parts: the variants differ in thickness and share the rest. */
export interface DemoFamily {
  readonly number: string;
  readonly name: string;
  readonly customer: string;
  readonly material: string;
  readonly group: string;
  readonly process: string;
  readonly kind: 'booth' | 'robot';
  readonly wps: string | null;
  readonly coded?: boolean;
  readonly welds: readonly DemoWeld[];
  readonly variants: readonly {
    readonly suffix: string;
    readonly thicknessMm: number;
    readonly alias?: string;
    readonly wps?: string | null;
  }[];
  readonly setUp: DemoSetUp;
  readonly fixture: readonly [code: string, place: string] | null;
  readonly batch: number;
  readonly unitMin: number;
  readonly loadS: number;
  /** Tacked at a booth first; the robot welds it as step 2. */
  readonly tackedAt?: string;
}

const steel = { material: 'S355J2', group: '1.2', process: '135' } as const;
const fillet = { joint: 'fillet', position: 'PB' } as const;
const booth: DemoSetUp = {
  cell: 'M1',
  wire: 'Solid wire 1.2',
  gas: 'Argon with 18 % carbon dioxide',
  currentA: 240,
  voltageV: 26,
  wireSpeedMMin: 8.4,
  travelMmMin: 420,
  gasFlowLMin: 15,
  watchOuts: [],
};
const robot1: DemoSetUp = {
  ...booth,
  cell: 'R1',
  currentA: 255,
  voltageV: 26.5,
  wireSpeedMMin: 9,
  travelMmMin: 520,
  watchOuts: ['Clamp 3 before clamp 1, or the web leans'],
};
const robot2: DemoSetUp = {
  ...robot1,
  cell: 'R2',
  watchOuts: ['Check the seam start at station 2'],
};
const robotHeavy: DemoSetUp = {
  ...robot2,
  currentA: 290,
  voltageV: 29,
  wireSpeedMMin: 10.2,
  travelMmMin: 380,
};
const thin: DemoSetUp = {
  ...booth,
  cell: 'M2',
  wire: 'Solid wire 1.0',
  currentA: 150,
  voltageV: 20,
  wireSpeedMMin: 7,
  travelMmMin: 520,
  watchOuts: ['Thin edge: start on the thick side'],
};
const tig: DemoSetUp = {
  ...booth,
  cell: 'M3',
  wire: 'Stainless rod 1.6',
  gas: 'Argon',
  currentA: 95,
  voltageV: 12,
  wireSpeedMMin: null,
  travelMmMin: 100,
  gasFlowLMin: 9,
  watchOuts: ['Purge the back before the first tack'],
};
const cored: DemoSetUp = {
  ...booth,
  wire: 'Cored wire 1.2',
  currentA: 210,
  voltageV: 25,
  wireSpeedMMin: 8,
  travelMmMin: 220,
};

export const demoCustomers = ['Alder', 'Birch', 'Cedar', 'Dogwood', 'Elm', 'Hazel'] as const;

export const demoFamilies: readonly DemoFamily[] = [
  {
    ...steel,
    number: 'X-210',
    name: 'Bracket',
    customer: 'Alder',
    kind: 'robot',
    wps: 'WPS-014',
    welds: [{ ...fillet, throatMm: 4, lengthMm: 120, count: 8 }],
    variants: [
      { suffix: '-01', thicknessMm: 6, alias: 'Y-88' },
      { suffix: '-02', thicknessMm: 8 },
      { suffix: '-03', thicknessMm: 15 },
    ],
    setUp: robot1,
    fixture: ['FX-031', 'B2-3'],
    batch: 12,
    unitMin: 4.23,
    loadS: 95,
  },
  {
    ...steel,
    number: 'K-118',
    name: 'Bearing foot',
    customer: 'Alder',
    kind: 'robot',
    wps: 'WPS-012',
    welds: [
      { ...fillet, throatMm: 6, lengthMm: 180, count: 4 },
      { ...fillet, throatMm: 5, lengthMm: 60, count: 4 },
    ],
    variants: [
      { suffix: '-10', thicknessMm: 10, alias: 'AL 2210' },
      { suffix: '-12', thicknessMm: 12 },
      { suffix: '-16', thicknessMm: 16 },
    ],
    setUp: robotHeavy,
    fixture: ['FX-044', 'B1-1'],
    batch: 15,
    unitMin: 7.1,
    loadS: 140,
  },
  {
    ...steel,
    number: 'K-240',
    name: 'Cross member',
    customer: 'Cedar',
    kind: 'robot',
    wps: 'WPS-014',
    welds: [
      { ...fillet, throatMm: 3.5, lengthMm: 240, count: 4 },
      { ...fillet, throatMm: 4, lengthMm: 80, count: 6 },
    ],
    variants: [
      { suffix: '-A', thicknessMm: 5 },
      { suffix: '-B', thicknessMm: 6 },
      { suffix: '-C', thicknessMm: 8 },
      { suffix: '-D', thicknessMm: 10 },
    ],
    setUp: robot2,
    fixture: ['FX-052', 'B1-4'],
    batch: 12,
    unitMin: 6.2,
    loadS: 120,
  },
  {
    ...steel,
    number: 'T-300',
    name: 'Tool carrier',
    customer: 'Birch',
    kind: 'booth',
    wps: 'WPS-009',
    welds: [
      { ...fillet, throatMm: 5, lengthMm: 200, count: 6 },
      { ...fillet, throatMm: 5, lengthMm: 90, count: 2, position: 'PF' },
    ],
    variants: [
      { suffix: '-1', thicknessMm: 10, alias: 'BI/300/1' },
      { suffix: '-2', thicknessMm: 12 },
      { suffix: '-3', thicknessMm: 15 },
    ],
    setUp: booth,
    fixture: ['FX-012', 'A1-2'],
    batch: 10,
    unitMin: 16,
    loadS: 60,
  },
  {
    ...steel,
    number: 'T-410',
    name: 'Lifting eye',
    customer: 'Elm',
    kind: 'booth',
    wps: 'WPS-021',
    coded: true,
    welds: [{ ...fillet, throatMm: 8, lengthMm: 160, count: 4 }],
    variants: [
      { suffix: '-20', thicknessMm: 20, alias: 'EYE 20' },
      { suffix: '-30', thicknessMm: 30 },
    ],
    setUp: {
      ...booth,
      currentA: 270,
      voltageV: 29,
      wireSpeedMMin: 9.6,
      travelMmMin: 380,
      preheatC: 110,
      watchOuts: ['Preheat 100 °C or more, read at the plate, 75 mm from the weld'],
    },
    fixture: null,
    batch: 8,
    unitMin: 24,
    loadS: 60,
  },
  {
    ...steel,
    number: 'S-520',
    name: 'Guard frame',
    customer: 'Dogwood',
    kind: 'booth',
    wps: 'WPS-005',
    welds: [{ ...fillet, throatMm: 3, lengthMm: 60, count: 24 }],
    variants: [
      { suffix: '-L', thicknessMm: 3, alias: 'DW FRAME L' },
      { suffix: '-M', thicknessMm: 3 },
      { suffix: '-S', thicknessMm: 4 },
    ],
    setUp: thin,
    fixture: ['FX-020', 'A2-1'],
    batch: 14,
    unitMin: 11,
    loadS: 80,
  },
  {
    ...steel,
    number: 'S-530',
    name: 'Panel hinge',
    customer: 'Dogwood',
    kind: 'robot',
    wps: 'WPS-027',
    welds: [{ ...fillet, throatMm: 2.5, lengthMm: 45, count: 6 }],
    variants: [
      { suffix: '-1', thicknessMm: 3 },
      { suffix: '-2', thicknessMm: 4 },
    ],
    setUp: {
      ...thin,
      cell: 'R2',
      currentA: 170,
      voltageV: 21.5,
      wireSpeedMMin: 8,
      travelMmMin: 680,
      watchOuts: [],
    },
    fixture: ['FX-061', 'B3-2'],
    batch: 15,
    unitMin: 2.2,
    loadS: 45,
  },
  {
    ...steel,
    number: 'P-610',
    name: 'Pump base',
    customer: 'Hazel',
    kind: 'booth',
    wps: 'WPS-026',
    process: '136',
    welds: [
      { ...fillet, throatMm: 6, lengthMm: 300, count: 4 },
      { ...fillet, throatMm: 6, lengthMm: 120, count: 4, position: 'PF' },
    ],
    variants: [
      { suffix: '-1', thicknessMm: 16, alias: 'HZ-PB1' },
      { suffix: '-2', thicknessMm: 20 },
      { suffix: '-3', thicknessMm: 25 },
    ],
    setUp: cored,
    fixture: null,
    batch: 6,
    unitMin: 38,
    loadS: 120,
  },
  {
    ...steel,
    number: 'P-640',
    name: 'Frame corner',
    customer: 'Hazel',
    kind: 'booth',
    wps: 'WPS-017',
    welds: [{ joint: 'butt', throatMm: null, lengthMm: 110, count: 4, position: 'PA' }],
    variants: [
      { suffix: '-8', thicknessMm: 8 },
      { suffix: '-10', thicknessMm: 10 },
      { suffix: '-12', thicknessMm: 12 },
    ],
    setUp: { ...booth, cell: 'M2' },
    fixture: ['FX-033', 'A1-4'],
    batch: 12,
    unitMin: 9,
    loadS: 60,
  },
  {
    number: 'E-710',
    name: 'Sink insert',
    customer: 'Cedar',
    material: '1.4404',
    group: '8.1',
    process: '141',
    kind: 'booth',
    wps: 'WPS-023',
    welds: [{ joint: 'fillet', throatMm: 2, lengthMm: 150, count: 4, position: 'PB' }],
    variants: [
      { suffix: '-1', thicknessMm: 2, alias: 'CED SINK 1' },
      { suffix: '-2', thicknessMm: 2 },
      { suffix: '-3', thicknessMm: 3 },
    ],
    setUp: tig,
    fixture: ['FX-071', 'C1-1'],
    batch: 10,
    unitMin: 14,
    loadS: 60,
  },
  {
    number: 'E-730',
    name: 'Hopper lip',
    customer: 'Birch',
    material: '1.4404',
    group: '8.1',
    process: '135',
    kind: 'booth',
    wps: 'WPS-024',
    welds: [{ joint: 'fillet', throatMm: 3, lengthMm: 200, count: 4, position: 'PB' }],
    variants: [
      { suffix: '-1', thicknessMm: 4 },
      { suffix: '-2', thicknessMm: 5 },
    ],
    setUp: {
      ...tig,
      wire: 'Stainless wire 1.0',
      gas: 'Argon with 2 % carbon dioxide',
      currentA: 165,
      voltageV: 24,
      wireSpeedMMin: 9,
      travelMmMin: 500,
      gasFlowLMin: 14,
    },
    fixture: null,
    batch: 10,
    unitMin: 8,
    loadS: 60,
  },
  {
    ...steel,
    number: 'L-810',
    name: 'Ladder rung pair',
    customer: 'Elm',
    kind: 'booth',
    wps: 'WPS-029',
    welds: [{ joint: 'lap', throatMm: 4, lengthMm: 70, count: 8, position: 'PB' }],
    variants: [
      { suffix: '-400', thicknessMm: 5 },
      { suffix: '-500', thicknessMm: 5 },
      { suffix: '-600', thicknessMm: 6 },
    ],
    setUp: { ...booth, cell: 'M2' },
    fixture: ['FX-018', 'A2-4'],
    batch: 14,
    unitMin: 6.5,
    loadS: 40,
  },
  {
    ...steel,
    number: 'V-150',
    name: 'Valve cradle',
    customer: 'Birch',
    kind: 'robot',
    wps: 'WPS-014',
    tackedAt: 'M2',
    welds: [
      { ...fillet, throatMm: 4, lengthMm: 150, count: 6 },
      { ...fillet, throatMm: 3, lengthMm: 50, count: 8 },
    ],
    variants: [
      { suffix: '-1', thicknessMm: 6, alias: 'BI/CRADLE' },
      { suffix: '-2', thicknessMm: 8 },
      { suffix: '-3', thicknessMm: 10 },
    ],
    setUp: robot1,
    fixture: ['FX-066', 'B2-1'],
    batch: 12,
    unitMin: 5.4,
    loadS: 90,
  },
  {
    ...steel,
    number: 'Q-905',
    name: 'Wear plate holder',
    customer: 'Hazel',
    material: 'S690QL',
    group: '3.1',
    kind: 'booth',
    wps: 'WPS-031',
    welds: [{ ...fillet, throatMm: 6, lengthMm: 140, count: 4 }],
    variants: [
      { suffix: '-1', thicknessMm: 12 },
      { suffix: '-2', thicknessMm: 15 },
    ],
    setUp: booth,
    fixture: null,
    batch: 8,
    unitMin: 18,
    loadS: 60,
  },
];

/** Tacks are no weld of the list: the step carries no procedure of its own. */
const tackStep: StepInput = {
  number: 1,
  name: 'Tack',
  cellKind: 'booth',
  wpsNumber: 'WPS-009',
  setUpMin: 8,
  firstPieceMin: 4,
  unitMin: 3,
  startStopS: 1.5,
  airMovesS: 0,
  cleaningS: 0,
  loadS: 30,
  instructions: 'Tack in the jig at the marks, four a side.',
  holdPoint: false,
};

export function stepsOf(family: DemoFamily, variantWps: string | null | undefined): StepInput[] {
  const tack = family.tackedAt === undefined ? [] : [tackStep];
  return [
    ...tack,
    {
      number: tack.length + 1,
      name: family.kind === 'robot' ? 'Weld at the robot' : 'Tack and weld',
      cellKind: family.kind,
      wpsNumber: variantWps === undefined ? family.wps : variantWps,
      setUpMin: family.kind === 'robot' ? 25 : 12,
      firstPieceMin: family.kind === 'robot' ? 15 : 8,
      unitMin: family.unitMin,
      startStopS: 1.5,
      airMovesS: family.kind === 'robot' ? 30 : 0,
      cleaningS: family.kind === 'robot' ? 6 : 0,
      loadS: family.loadS,
      instructions:
        family.kind === 'robot'
          ? 'Load to the stops, close the clamps in order, look along the seam before the start.'
          : 'Tack, check square, weld from the middle outwards.',
      holdPoint: family.coded === true,
    },
  ];
}

export function weldsOf(family: DemoFamily, thicknessMm: number): WeldInput[] {
  return family.welds.map((weld, index) => ({
    number: index + 1,
    jointType: weld.joint,
    throatMm: weld.throatMm,
    legMm: null,
    grooveDepthMm: weld.joint === 'butt' ? thicknessMm : null,
    lengthMm: weld.lengthMm,
    count: weld.count,
    thicknessAMm: thicknessMm,
    thicknessBMm: thicknessMm,
    materialA: family.material,
    materialB: family.material,
    materialGroupA: family.group,
    materialGroupB: family.group,
    position: weld.position,
    process: family.process,
    stepNumber: family.tackedAt === undefined ? 1 : 2,
    qualityLevel: family.coded === true ? 'B' : 'C',
    notes: '',
  }));
}
