import type { BodyOf, parts } from '@tackboard/contract';

type WeldInput = BodyOf<typeof parts.setWelds>['welds'][number];
type StepInput = BodyOf<typeof parts.setSteps>['steps'][number];

interface DemoWeld {
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
  /** What others do after the last step, and the days it takes. */
  readonly outside?: { readonly work: string; readonly days: number };
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
  massKg: null,
  reachMm: null,
  instructions: 'Tack in the jig at the marks, four a side.',
  holdPoint: false,
  witnessMin: null,
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
      massKg: family.kind === 'robot' ? 48 : null,
      reachMm: family.kind === 'robot' ? 950 : null,
      instructions:
        family.kind === 'robot'
          ? 'Load to the stops, close the clamps in order, look along the seam before the start.'
          : 'Tack, check square, weld from the middle outwards.',
      holdPoint: family.coded === true,
      witnessMin: null,
    },
  ];
}

/** What such plates are commonly given: a V, from 12 mm on one from both sides. */
function grooveOf(thicknessMm: number): NonNullable<WeldInput['preparation']> {
  return {
    kind: thicknessMm < 12 ? 'singleV' : 'doubleV',
    ...{ gapMm: 2, rootFaceMm: 2, angleDeg: 60, rootRadiusMm: 0, capHeightMm: 1 },
    backing: 'none',
  };
}

export function weldsOf(family: DemoFamily, thicknessMm: number): WeldInput[] {
  return family.welds.map((weld, index) => ({
    number: index + 1,
    jointType: weld.joint,
    throatMm: weld.throatMm,
    legMm: null,
    grooveDepthMm: weld.joint === 'butt' ? thicknessMm : null,
    holeWidthMm: null,
    preparation: weld.joint === 'butt' ? grooveOf(thicknessMm) : null,
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
    sizeUnderMm: null,
    sizeOverMm: null,
    notes: '',
  }));
}

/** The program that every set-up of the demo shop is filed with. */
export const demoProgramRevision = '4';
