import type { Role } from '@tackboard/contract';

/** An invented shop: nobody here exists. Codes are what people type to sign in. */
export interface DemoPerson {
  readonly code: string;
  readonly name: string;
  readonly role: Role;
  readonly coordinator?: boolean;
  readonly language?: 'en' | 'de' | 'es' | 'pl';
}

export const demoPeople: readonly DemoPerson[] = [
  { code: 'M01', name: 'Marit Oyelund', role: 'manager' },
  { code: 'S01', name: 'Selma Brackwater', role: 'office' },
  { code: 'S02', name: 'Tobin Ashgrove', role: 'office' },
  { code: 'C01', name: 'Conrad Velleby', role: 'qa', coordinator: true },
  { code: 'Q02', name: 'Quenna Harrowind', role: 'qa' },
  { code: 'W03', name: 'Wim Dalstrand', role: 'welder' },
  { code: 'W07', name: 'Wanda Kestelholm', role: 'welder', language: 'de' },
  { code: 'W09', name: 'Piet Morrowick', role: 'welder', language: 'pl' },
  { code: 'W11', name: 'Lucia Fenmoor', role: 'welder', language: 'es' },
  { code: 'O03', name: 'Orla Winterbeck', role: 'welder' },
  { code: 'O05', name: 'Osric Tallow', role: 'welder' },
  { code: 'O08', name: 'Nadia Copperlane', role: 'welder' },
];

export interface DemoCertificate {
  readonly person: string;
  readonly kind: 'welder' | 'operator';
  readonly code: string;
  readonly edition: string;
  readonly process: string;
  readonly cell: string | null;
  readonly jointTypes: readonly string[];
  readonly positions: readonly string[];
  readonly thicknessMinMm: number;
  readonly thicknessMaxMm: number | null;
  readonly fillerGroups: readonly string[];
  /** Days before the day the shop is loaded. */
  readonly testedDaysAgo: number;
  readonly confirmedDaysAgo: number | null;
}

const welder = { kind: 'welder', code: 'ISO 9606-1', edition: '2012', cell: null } as const;
const operator = {
  kind: 'operator',
  code: 'ISO 14732',
  edition: '2013',
  thicknessMinMm: 1,
  thicknessMaxMm: null,
} as const;
const fillets = ['fillet', 'lap', 'corner'];

export const demoCertificates: readonly DemoCertificate[] = [
  {
    ...welder,
    person: 'W03',
    process: '135',
    jointTypes: fillets,
    positions: ['PA', 'PB', 'PF'],
    thicknessMinMm: 3,
    thicknessMaxMm: null,
    fillerGroups: ['FM1', 'FM2'],
    testedDaysAgo: 700,
    confirmedDaysAgo: 40,
  },
  {
    ...welder,
    person: 'W03',
    process: '135',
    jointTypes: ['butt'],
    positions: ['PA', 'PF'],
    thicknessMinMm: 3,
    thicknessMaxMm: 24,
    fillerGroups: ['FM1', 'FM2'],
    testedDaysAgo: 690,
    confirmedDaysAgo: 40,
  },
  {
    ...welder,
    person: 'W07',
    process: '135',
    jointTypes: fillets,
    positions: ['PA', 'PB'],
    thicknessMinMm: 3,
    thicknessMaxMm: null,
    fillerGroups: ['FM1', 'FM2'],
    testedDaysAgo: 520,
    confirmedDaysAgo: 95,
  },
  {
    ...welder,
    person: 'W09',
    process: '135',
    jointTypes: fillets,
    positions: ['PA', 'PB', 'PC', 'PF'],
    thicknessMinMm: 3,
    thicknessMaxMm: null,
    fillerGroups: ['FM1', 'FM2'],
    testedDaysAgo: 410,
    confirmedDaysAgo: 20,
  },
  {
    ...welder,
    person: 'W09',
    process: '136',
    jointTypes: fillets,
    positions: ['PA', 'PB', 'PF'],
    thicknessMinMm: 3,
    thicknessMaxMm: null,
    fillerGroups: ['FM1', 'FM2'],
    testedDaysAgo: 400,
    confirmedDaysAgo: 168,
  },
  {
    ...welder,
    person: 'W11',
    process: '141',
    jointTypes: ['fillet', 'lap', 'corner', 'butt'],
    positions: ['PA', 'PB', 'PC', 'PF'],
    thicknessMinMm: 1,
    thicknessMaxMm: 6,
    fillerGroups: ['FM5'],
    testedDaysAgo: 300,
    confirmedDaysAgo: 30,
  },
  {
    ...welder,
    person: 'W11',
    process: '135',
    jointTypes: fillets,
    positions: ['PA', 'PB'],
    thicknessMinMm: 2,
    thicknessMaxMm: null,
    fillerGroups: ['FM5'],
    testedDaysAgo: 280,
    confirmedDaysAgo: 30,
  },
  {
    ...operator,
    person: 'O03',
    process: '135',
    cell: 'R1',
    jointTypes: fillets,
    positions: ['PA', 'PB'],
    fillerGroups: ['FM1'],
    testedDaysAgo: 800,
    confirmedDaysAgo: 55,
  },
  {
    ...operator,
    person: 'O03',
    process: '135',
    cell: 'R2',
    jointTypes: fillets,
    positions: ['PA', 'PB'],
    fillerGroups: ['FM1'],
    testedDaysAgo: 640,
    confirmedDaysAgo: 55,
  },
  {
    ...operator,
    person: 'O05',
    process: '135',
    cell: 'R1',
    jointTypes: fillets,
    positions: ['PA', 'PB'],
    fillerGroups: ['FM1'],
    testedDaysAgo: 560,
    confirmedDaysAgo: 195,
  },
  {
    ...operator,
    person: 'O08',
    process: '135',
    cell: 'R2',
    jointTypes: fillets,
    positions: ['PA', 'PB'],
    fillerGroups: ['FM1'],
    testedDaysAgo: 260,
    confirmedDaysAgo: 172,
  },
  {
    ...operator,
    person: 'O08',
    process: '135',
    cell: 'R1',
    jointTypes: fillets,
    positions: ['PA', 'PB'],
    fillerGroups: ['FM1'],
    testedDaysAgo: 255,
    confirmedDaysAgo: 35,
  },
];
