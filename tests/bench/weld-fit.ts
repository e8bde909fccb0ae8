import { fitWeld } from '@tackboard/calc';

const range = (min: number, max: number) => ({ min, max });

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

const batches = 200;
const fitsPerBatch = 500;

/** Microseconds of one fit, the median of many batches. */
export function weldFitUs(): number {
  const times: number[] = [];
  for (let batch = 0; batch < batches; batch += 1) {
    const startMs = performance.now();
    for (let at = 0; at < fitsPerBatch; at += 1)
      if (fitWeld(question).result !== 'inside') throw new Error('This weld fits.');
    times.push(((performance.now() - startMs) * 1000) / fitsPerBatch);
  }
  const middle = times.toSorted((a, b) => a - b)[batches / 2] ?? Number.NaN;
  return Math.round(middle * 100) / 100;
}
