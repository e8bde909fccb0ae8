import {
  arcTime,
  batchWire,
  depositedMass,
  filletArea,
  findProcedures,
  fitPerson,
  fitWeld,
  heatInput,
  throatFromSettings,
  weldCoolingTime,
  weldGas,
} from '@tackboard/calc';

const range = (min: number, max: number) => ({ min, max });
const round = (value: number) => Math.round(value * 100) / 100;

/** One weld against one procedure, every variable given; values are invented. */
const question = {
  weld: {
    ...{ process: '135', materialGroups: ['1.2', '1.2'], thicknessesMm: [6, 8] },
    ...{ jointType: 'fillet', throatMm: 4, position: 'PB' },
  },
  settings: {
    ...{ mechanisation: 'fullyMechanised', wireDiameterMm: 1.2, filler: 'G3Si1', gas: 'M21' },
    ...{ currentA: 255, voltageV: 26.5, wireSpeedMMin: 9, travelMmMin: 520 },
    ...{ preheatC: 110, interpassC: 180 },
  },
  wps: {
    ...{ process: '135', mechanisations: ['fullyMechanised'], materialGroups: ['1.1', '1.2'] },
    ...{ jointTypes: ['fillet'], positions: ['PA', 'PB'], fillers: ['G3Si1'], gases: ['M21'] },
    ...{ thicknessMm: range(3, 12), throatMm: range(3, 6), wireDiameterMm: range(1.2, 1.2) },
    ...{ currentA: range(230, 280), voltageV: range(25, 28), wireSpeedMMin: range(8, 10) },
    ...{ travelMmMin: range(450, 600), heatInputKjMm: range(0.45, 0.95) },
    ...{ heatInputBasis: 'heatInput' as const, preheatMinC: 100, interpassMaxC: 250 },
  },
};

/** Batches are short, so that most of them are over before the machine turns to other work. */
const batches = 4000;
const timesPerBatch = 25;

/** Microseconds of one act, the median of many batches. */
function medianUs(act: (at: number) => void): number {
  const times: number[] = [];
  for (let batch = 0; batch < batches; batch += 1) {
    const startMs = performance.now();
    for (let at = 0; at < timesPerBatch; at += 1) act(at);
    times.push(((performance.now() - startMs) * 1000) / timesPerBatch);
  }
  return round(times.toSorted((a, b) => a - b)[batches / 2] ?? Number.NaN);
}

/** Microseconds of one fit. */
export function weldFitUs(): number {
  return medianUs(() => {
    if (fitWeld(question).result !== 'inside') throw new Error('This weld fits.');
  });
}

function figure(result: { ok: true; value: number } | { ok: false }): number {
  if (!result.ok) throw new Error('This weld can be worked out.');
  return result.value;
}

/** Everything that is said of one weld: area, mass, size laid, times, wire, gas, heat, cooling and the fit. */
function wholeWeld(lengthMm: number): void {
  const { weld, settings, wps } = question;
  const { currentA, voltageV, travelMmMin, wireDiameterMm, wireSpeedMMin } = settings;
  const areaMm2 = figure(filletArea({ throatMm: weld.throatMm }));
  figure(depositedMass({ areaMm2, lengthMm }));
  figure(throatFromSettings({ wireDiameterMm, wireSpeedMMin, travelMmMin, efficiency: 0.96 }));
  const arcS = figure(arcTime({ lengthMm, travelMmMin }));
  figure(batchWire({ wireDiameterMm, wireSpeedMMin, arcS, quantity: 12 }));
  figure(weldGas({ gasFlowLMin: 15, arcS, starts: 1, preFlowS: 0.5, postFlowS: 1 }));
  const arc = { process: weld.process, currentA, voltageV, travelMmMin };
  const heatInputKjMm = figure(heatInput(arc));
  const plate = { plateC: settings.preheatC, thicknessMm: 8, weldForm: 'cornerFillet' } as const;
  figure(weldCoolingTime({ heatInputKjMm, ...plate }));
  if (fitWeld({ weld, settings, wps }).result !== 'inside') throw new Error('This weld fits.');
}

/** Microseconds of one whole weld, from its geometry to its fit. */
export function wholeWeldUs(): number {
  return medianUs((at) => wholeWeld(100 + at));
}

const certificate = {
  kind: 'welder',
  route: 'retest',
  ...{ number: 'Q-07', code: 'EN ISO 9606-1', unit: null },
  ...{ processes: ['135', '138'], transfers: ['D', 'S'], jointTypes: ['fillet'] },
  ...{ positions: ['PA', 'PB'], filletPositions: null, thicknessMm: { min: 3, max: null } },
  ...{ diameterMm: null, materialGroups: [], fillerGroups: ['FM1', 'FM2'], runs: [] },
  ...{ functionTestOn: null, jointSensor: null, arcSensor: null, revokedOn: null },
  ...{ testedOn: '2025-03-10', validUntil: '2028-03-09', confirmedUntil: '2027-01-02' },
} as const;
const booth = {
  ...{ mechanisation: 'partlyMechanised', unit: 'B1', jointSensor: null, arcSensor: null },
} as const;

export const job = { welds: 10, people: 5 };

/** A job of several welds against its procedure and everybody who might take it, with two certificates each. */
function jobFit(): void {
  const { weld } = question;
  for (let at = 0; at < job.welds; at += 1) {
    const thicknessesMm = [5 + at / 2, 8];
    fitWeld({ ...question, weld: { ...weld, thicknessesMm } });
    for (let person = 0; person < job.people; person += 1) {
      const { result } = fitPerson([certificate, { ...certificate, number: 'Q-08' }], {
        weld: {
          ...{ ...weld, thicknessesMm, code: 'EN 1090-2', transfer: 'S', depositedMm: null },
          ...{ product: 'plate', diameterMm: null, fillerGroup: 'FM1', runs: 'single' },
        },
        ...{ cell: booth, role: 'welds', day: '2026-10-05' },
      });
      if (result !== 'inside') throw new Error('These people may weld this job.');
    }
  }
}

/** Milliseconds of one job's fit, the median of many. */
export function jobFitMs(): number {
  const times = Array.from({ length: 400 }, () => {
    const startMs = performance.now();
    jobFit();
    return performance.now() - startMs;
  });
  return round(times.toSorted((a, b) => a - b)[200] ?? Number.NaN);
}

export const found = { welds: 10_000, procedures: 200 };

/**
 * Seconds in which every weld of a large shop finds its procedures, the median of three; welds and ranges differ from
 * one to the next.
 */
export function findProceduresS(): number {
  const { weld, wps } = question;
  const positions = ['PA', 'PB', 'PC', 'PD', 'PE', 'PF', 'PG'];
  const at = <T>(list: readonly T[], index: number) => list[index % list.length] as T;
  const welds = Array.from({ length: found.welds }, (_, index) => ({
    ...weld,
    id: `w${index}`,
    throatMm: 2.5 + (index % 90) / 10,
    thicknessesMm: [2 + (index % 41) / 2, 3 + (index % 53) / 2],
    position: at(positions, index),
  }));
  const procedures = Array.from({ length: found.procedures }, (_, index) => ({
    id: `p${index}`,
    ranges: {
      ...wps,
      positions: [at(positions, index), at(positions, index * 3 + 1)],
      thicknessMm: range(2 + (index % 7), 10 + (index % 23)),
      throatMm: range(2 + (index % 5), 5 + (index % 8)),
    },
  }));
  const times = [1, 2, 3].map(() => {
    const startMs = performance.now();
    const coverage = findProcedures({ welds, procedures });
    if (!coverage.some(({ covering }) => covering.length > 0)) throw new Error('Some welds fit.');
    return (performance.now() - startMs) / 1000;
  });
  return round(times.toSorted((a, b) => a - b)[1] ?? Number.NaN);
}
