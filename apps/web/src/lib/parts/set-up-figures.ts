import { arcEnergy, assumedWireEfficiency, throatFromSettings } from '@tackboard/calc';
import { explainedArcEnergy, explainedLaid } from '../method/explained.js';

type Given = Readonly<
  Record<
    'currentA' | 'voltageV' | 'wireSpeedMMin' | 'travelMmMin' | 'wireDiameterMm',
    number | null
  >
>;

/** The size that settings lay in one run and their arc energy, each null while it cannot be said. */
export function setUpFigures({
  currentA,
  voltageV,
  wireSpeedMMin,
  travelMmMin,
  wireDiameterMm,
}: Given) {
  const laid = answered(
    wireDiameterMm === null || wireSpeedMMin === null || travelMmMin === null
      ? null
      : throatFromSettings({
          ...{ wireDiameterMm, wireSpeedMMin, travelMmMin },
          efficiency: assumedWireEfficiency,
        }),
  );
  const energy = answered(
    currentA === null || voltageV === null || travelMmMin === null
      ? null
      : arcEnergy({ currentA, voltageV, travelMmMin }),
  );
  const explained = [
    laid === null ? [] : [explainedLaid(laid)],
    energy === null ? [] : [explainedArcEnergy(energy)],
  ].flat();
  return { laid, energy, explained };
}

function answered<C extends { ok: boolean }>(result: C | null): Extract<C, { ok: true }> | null {
  return result?.ok ? (result as Extract<C, { ok: true }>) : null;
}
