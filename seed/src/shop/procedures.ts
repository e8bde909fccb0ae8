import type { WpsRanges } from '@tackboard/contract';

type Limits = readonly [number | null, number | null] | null;

function range(limits: Limits) {
  return limits === null ? null : { min: limits[0], max: limits[1] };
}

export interface DemoProcedure {
  readonly number: string;
  readonly title: string;
  readonly ranges: WpsRanges;
  /** How often it was revised before today. */
  readonly revisions: number;
  readonly state: 'approved' | 'draft';
}

interface Sketch {
  readonly process?: string;
  readonly robot?: boolean;
  readonly groups?: readonly string[];
  readonly joints?: readonly string[];
  readonly positions: readonly string[];
  readonly filler?: string;
  readonly gas?: string;
  readonly thickness: Limits;
  readonly throat: Limits;
  readonly wire?: number;
  readonly current: Limits;
  readonly voltage: Limits;
  readonly wireSpeed: Limits;
  readonly travel: Limits;
  readonly heat: Limits;
  readonly preheatMinC?: number;
  readonly interpassMaxC?: number;
  readonly manual?: boolean;
}

function ranges(s: Sketch): WpsRanges {
  const wire = s.wire ?? 1.2;
  return {
    process: s.process ?? '135',
    mechanisations:
      s.robot === true ? ['fullyMechanised'] : [s.manual === true ? 'manual' : 'partlyMechanised'],
    materialGroups: [...(s.groups ?? ['1.1', '1.2'])],
    jointTypes: [...(s.joints ?? ['fillet', 'lap', 'corner'])],
    positions: [...s.positions],
    fillers: [s.filler ?? 'G3Si1'],
    gases: [s.gas ?? 'M21'],
    thicknessMm: range(s.thickness),
    throatMm: range(s.throat),
    wireDiameterMm: { min: wire, max: wire },
    currentA: range(s.current),
    voltageV: range(s.voltage),
    wireSpeedMMin: range(s.wireSpeed),
    travelMmMin: range(s.travel),
    heatInputKjMm: range(s.heat),
    heatInputBasis: 'heatInput',
    preheatMinC: s.preheatMinC ?? null,
    interpassMaxC: s.interpassMaxC ?? 250,
  };
}

const booth135 = {
  current: [190, 290],
  voltage: [22, 30],
  wireSpeed: [6, 10.5],
  travel: [300, 560],
  heat: [0.45, 1.5],
} as const;

/** A dozen procedures; figures hang together: heat input limits hold at the middle of the setting ranges. */
export const demoProcedures: readonly DemoProcedure[] = [
  {
    number: 'WPS-005',
    title: 'Fillet, thin structural steel, booth',
    revisions: 1,
    state: 'approved',
    ranges: ranges({
      positions: ['PA', 'PB'],
      thickness: [2, 8],
      throat: [2, 4],
      wire: 1.0,
      current: [110, 200],
      voltage: [17, 24],
      wireSpeed: [4, 10],
      travel: [350, 700],
      heat: [0.15, 0.6],
    }),
  },
  {
    number: 'WPS-009',
    title: 'Fillet, structural steel, booth',
    revisions: 2,
    state: 'approved',
    ranges: ranges({
      positions: ['PA', 'PB', 'PF'],
      thickness: [3, 20],
      throat: [3, 8],
      ...booth135,
    }),
  },
  {
    number: 'WPS-012',
    title: 'Fillet, heavy structural steel, robot',
    revisions: 1,
    state: 'approved',
    ranges: ranges({
      robot: true,
      positions: ['PA', 'PB'],
      thickness: [6, 20],
      throat: [4, 8],
      current: [250, 330],
      voltage: [26, 32],
      wireSpeed: [8.5, 12],
      travel: [280, 500],
      heat: [0.7, 1.6],
    }),
  },
  {
    number: 'WPS-014',
    title: 'Fillet, structural steel, robot',
    revisions: 3,
    state: 'approved',
    ranges: ranges({
      robot: true,
      positions: ['PA', 'PB'],
      thickness: [3, 12],
      throat: [3, 6],
      current: [230, 280],
      voltage: [25, 28],
      wireSpeed: [8, 10],
      travel: [450, 600],
      heat: [0.45, 0.95],
    }),
  },
  {
    number: 'WPS-017',
    title: 'Butt, structural steel, booth',
    revisions: 1,
    state: 'approved',
    ranges: ranges({
      joints: ['butt'],
      positions: ['PA', 'PF'],
      thickness: [3, 24],
      throat: null,
      ...booth135,
    }),
  },
  {
    number: 'WPS-021',
    title: 'Fillet, thick plate with preheat, booth',
    revisions: 1,
    state: 'approved',
    ranges: ranges({
      positions: ['PA', 'PB'],
      thickness: [15, 40],
      throat: [5, null],
      ...booth135,
      heat: [0.8, 1.8],
      preheatMinC: 100,
    }),
  },
  {
    number: 'WPS-023',
    title: 'Stainless, thin sheet, TIG',
    revisions: 1,
    state: 'approved',
    ranges: ranges({
      process: '141',
      manual: true,
      groups: ['8.1'],
      joints: ['fillet', 'lap', 'corner', 'butt'],
      positions: ['PA', 'PB', 'PC'],
      filler: '19 12 3 L',
      gas: 'I1',
      wire: 1.6,
      thickness: [1, 5],
      throat: [1, 4],
      current: [60, 150],
      voltage: [9, 15],
      wireSpeed: null,
      travel: [50, 180],
      heat: [0.1, 1.1],
      interpassMaxC: 150,
    }),
  },
  {
    number: 'WPS-024',
    title: 'Stainless fillet, booth',
    revisions: 1,
    state: 'approved',
    ranges: ranges({
      groups: ['8.1'],
      positions: ['PA', 'PB'],
      filler: '19 12 3 L Si',
      gas: 'M12',
      wire: 1.0,
      thickness: [2, 10],
      throat: [2, 5],
      current: [120, 200],
      voltage: [20, 27],
      wireSpeed: [6, 12],
      travel: [350, 650],
      heat: [0.2, 0.8],
      interpassMaxC: 150,
    }),
  },
  {
    number: 'WPS-026',
    title: 'Fillet upwards, cored wire, booth',
    revisions: 1,
    state: 'approved',
    ranges: ranges({
      process: '136',
      positions: ['PA', 'PB', 'PF'],
      filler: 'T 46 4 P M 1',
      thickness: [6, 40],
      throat: [4, null],
      current: [180, 260],
      voltage: [23, 28],
      wireSpeed: [6, 11],
      travel: [120, 420],
      heat: [0.6, 2.4],
    }),
  },
  {
    number: 'WPS-027',
    title: 'Fillet, thin structural steel, robot',
    revisions: 1,
    state: 'approved',
    ranges: ranges({
      robot: true,
      positions: ['PA', 'PB'],
      thickness: [2, 8],
      throat: [2, 4],
      wire: 1.0,
      current: [140, 220],
      voltage: [19, 25],
      wireSpeed: [6, 12],
      travel: [500, 900],
      heat: [0.12, 0.5],
    }),
  },
  {
    number: 'WPS-029',
    title: 'Lap, structural steel, booth',
    revisions: 1,
    state: 'approved',
    ranges: ranges({
      joints: ['lap', 'fillet'],
      positions: ['PA', 'PB', 'PC'],
      thickness: [3, 16],
      throat: [3, 6],
      ...booth135,
    }),
  },
  {
    number: 'WPS-031',
    title: 'Fine-grain steel, booth, trial',
    revisions: 1,
    state: 'draft',
    ranges: ranges({
      groups: ['3.1'],
      positions: ['PA', 'PB'],
      thickness: [6, 25],
      throat: [4, 8],
      ...booth135,
      preheatMinC: 75,
      interpassMaxC: 200,
    }),
  },
];
