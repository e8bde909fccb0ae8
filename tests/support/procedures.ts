import { noWpsDetails, type BodyOf, type procedures, type WpsRanges } from '@tackboard/contract';

/** Ranges of an invented single-run fillet procedure, process 135. */
export const ranges: WpsRanges = {
  process: '135',
  mechanisations: ['partlyMechanised', 'fullyMechanised'],
  materialGroups: ['1.1', '1.2'],
  jointTypes: ['fillet'],
  positions: ['PA', 'PB'],
  fillers: ['G3Si1'],
  gases: ['M21'],
  thicknessMm: { min: 3, max: 12 },
  throatMm: { min: 3, max: 6 },
  wireDiameterMm: { min: 1.2, max: 1.2 },
  currentA: { min: 180, max: 260 },
  voltageV: { min: 22, max: 30 },
  wireSpeedMMin: { min: 6, max: 10 },
  travelMmMin: { min: 300, max: 500 },
  heatInputKjMm: { min: 0.5, max: 1.2 },
  heatInputBasis: 'heatInput',
  preheatMinC: null,
  interpassMaxC: 250,
};

/** 220 A x 26 V x 60 / (1000 x 400 mm/min) x 0.8 = 0.686 kJ/mm, inside the printed range. */
export const wpqrBody: BodyOf<typeof procedures.addWpqr> = {
  number: 'WPQR-014',
  code: 'ISO 15614-1',
  edition: '2017',
  level: '2',
  process: '135',
  mechanisation: 'partlyMechanised',
  testedOn: '2024-03-18',
  examiner: 'Works examiner',
  testPiece: {
    jointType: 'fillet',
    thicknessMm: 6,
    diameterMm: null,
    material: 'S355J2',
    materialGroup: '1.2',
    yieldMPa: 355,
    throatMm: 4,
    position: 'PB',
    runs: 'single',
    sides: 'one',
    backing: '',
  },
  testedValues: {
    currentA: 220,
    voltageV: 26,
    wireSpeedMMin: 8,
    travelMmMin: 400,
    heatInputKjMm: 0.686,
    preheatC: null,
    interpassC: 120,
  },
  testResults: [{ test: 'Visual', outcome: 'passed', note: '' }],
  filler: 'G3Si1',
  gas: 'M21',
  transfer: 'spray',
  ranges,
};

export const wpsBody: BodyOf<typeof procedures.add> = {
  number: 'WPS-014',
  title: 'Fillet, single run',
  code: 'ISO 15614-1',
  ranges,
  joint: { description: 'T-joint', preparation: 'clean and dry', runs: 'single' },
  details: noWpsDetails,
  technique: 'Stringer bead',
  wpqrIds: [],
  changeNote: '',
};
