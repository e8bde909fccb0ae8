import type { BodyOf, cells } from '@tackboard/contract';

type CellInput = Omit<BodyOf<typeof cells.add>, never>;

const weekdays = [1, 2, 3, 4, 5];

/** Two shifts at the robots, one at the booths; times are the shop's wall time. */
export function weekPattern(kind: 'booth' | 'robot') {
  const day = weekdays.map((weekday) => ({
    weekday,
    startTime: '07:00',
    endTime: '15:30',
    breakMin: 60,
    staffed: true,
  }));
  const late = weekdays.map((weekday) => ({
    weekday,
    startTime: '15:30',
    endTime: '19:30',
    breakMin: 30,
    staffed: weekday < 5,
  }));
  return kind === 'robot' ? [...day, ...late] : day;
}

const booth = {
  kind: 'booth',
  mechanisation: 'partlyMechanised',
  stations: 1,
  sourceRatingA: 400,
  sourceRatingPct: 60,
  torchRatingA: 300,
  torchRatingPct: 60,
  torchMaxA: 350,
  torchRatingGas: 'M21',
  reachMm: null,
  loadKg: 250,
  travelUnit: 'cm/min',
  planningFactor: 0.8,
  gasLossFactor: 1.25,
  extraction: 'Arm at the joint, breathing protection for what is left',
} as const;

export const demoCells: readonly CellInput[] = [
  { ...booth, code: 'M1', name: 'Booth by the north door', processes: ['135', '136'] },
  { ...booth, code: 'M2', name: 'Booth by the saw', processes: ['135'] },
  {
    ...booth,
    code: 'M3',
    name: 'Stainless booth',
    processes: ['141', '135'],
    mechanisation: 'manual',
    sourceRatingA: 230,
    torchRatingA: 180,
    torchMaxA: 200,
    torchRatingGas: 'I1',
    gasLossFactor: 1.15,
  },
  {
    ...booth,
    code: 'R1',
    name: 'Robot, one station',
    kind: 'robot',
    processes: ['135'],
    mechanisation: 'fullyMechanised',
    torchRatingA: 250,
    torchRatingPct: 60,
    torchMaxA: 300,
    reachMm: 1400,
    loadKg: 150,
    travelUnit: 'mm/min',
    extraction: 'Hood on, door closed',
  },
  {
    ...booth,
    code: 'R2',
    name: 'Robot, two stations',
    kind: 'robot',
    processes: ['135'],
    mechanisation: 'fullyMechanised',
    stations: 2,
    torchRatingA: 450,
    torchRatingPct: 100,
    torchMaxA: 450,
    reachMm: 1800,
    loadKg: 300,
    travelUnit: 'mm/min',
    extraction: 'Hood on, curtain closed',
  },
];
