import {
  arcLengthMm,
  assumedWireEfficiency,
  batchGas,
  batchWire,
  cycleTime,
  heatInput,
  throatFromSettings,
  type Refused,
} from '@tackboard/calc';
import type { SetUpCard } from '@tackboard/contract';
import type { LoadFacts, StepFacts } from './facts.js';

export type Figures = SetUpCard['figures'];

/** Gas before and after each weld: common practice, in seconds. */
export const gasPrePostS = 1;

/** The few figures of a set-up card; null where a value that it needs is not on file. */
export function figuresOf(facts: StepFacts): Figures {
  const { record } = facts;
  const cycle = cycleOf(facts);
  const arcS = cycle?.parts.arcS ?? null;
  const restQuantity = Math.max(0, record.quantity - record.goodCount);
  const wire = wireOf(facts, arcS, restQuantity);
  const feeder = loadedOf(facts, 'wire');
  return {
    arcSPerPart: arcS,
    cycleS: cycle?.value ?? null,
    heatInputKjMm: heatOf(facts),
    throatFromSettingsMm: throatOf(facts),
    wireKgBatch: restQuantity === 0 ? 0 : (wire?.value ?? null),
    gasLBatch: restQuantity === 0 ? 0 : gasOf(facts, arcS, restQuantity),
    feederKg: feeder?.unit === 'kg' ? feeder.leftAmount : null,
    partsFromFeeder: wire?.parts.partsPossible ?? null,
  };
}

export function loadedOf(facts: Pick<StepFacts, 'loads'>, kind: 'wire' | 'gas'): LoadFacts | null {
  return facts.loads.find((load) => load.kind === kind) ?? null;
}

function answered<T extends { ok: true }>(result: T | Refused): T | null {
  return result.ok ? result : null;
}

function cycleOf({ setUp, welds, step, cell }: StepFacts) {
  const travelMmMin = setUp?.travelMmMin ?? null;
  if (travelMmMin === null || welds.length === 0) return null;
  const { startStopS, airMovesS, cleaningS, loadS } = step;
  const arcs = welds.flatMap((weld) => {
    const lengthMm = arcLengthMm(weld, setUp);
    return lengthMm === null ? [] : [{ lengthMm, count: weld.count, travelMmMin }];
  });
  if (arcs.length < welds.length) return null;
  return answered(
    cycleTime({
      welds: arcs,
      ...{ startStopS, airMovesS, cleaningS, loadS },
      stations: cell.stations === 2 ? 2 : 1,
    }),
  );
}

function heatOf({ setUp, welds }: StepFacts): number | null {
  const [weld] = welds;
  if (setUp === null || weld === undefined) return null;
  const { currentA, voltageV, travelMmMin } = setUp;
  if (currentA === null || voltageV === null || travelMmMin === null) return null;
  return (
    answered(heatInput({ currentA, voltageV, travelMmMin, process: weld.process }))?.value ?? null
  );
}

function throatOf({ setUp, welds }: StepFacts): number | null {
  if (setUp === null || !welds.some(({ jointType }) => jointType === 'fillet')) return null;
  const { wireDiameterMm, wireSpeedMMin, travelMmMin } = setUp;
  if (wireDiameterMm === null || wireSpeedMMin === null || travelMmMin === null) return null;
  const settings = {
    wireDiameterMm,
    wireSpeedMMin,
    travelMmMin,
    efficiency: assumedWireEfficiency,
  };
  return answered(throatFromSettings(settings))?.value ?? null;
}

function wireOf(facts: StepFacts, arcS: number | null, restQuantity: number) {
  const { wireDiameterMm, wireSpeedMMin } = facts.setUp ?? {};
  if (!wireDiameterMm || !wireSpeedMMin || arcS === null) return null;
  const feeder = loadedOf(facts, 'wire');
  return answered(
    batchWire({
      ...{ wireDiameterMm, wireSpeedMMin, arcS },
      quantity: Math.max(1, restQuantity),
      onFeederKg: feeder?.unit === 'kg' ? feeder.leftAmount : null,
    }),
  );
}

function gasOf({ setUp, welds, cell }: StepFacts, arcS: number | null, quantity: number) {
  const gasFlowLMin = setUp?.gasFlowLMin ?? null;
  if (gasFlowLMin === null || arcS === null) return null;
  const gas = batchGas({
    ...{ gasFlowLMin, arcS, quantity },
    weldCount: welds.reduce((sum, { count }) => sum + count, 0),
    prePostS: gasPrePostS,
    lossFactor: cell.gasLossFactor,
  });
  return answered(gas)?.value ?? null;
}
