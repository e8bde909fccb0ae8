import { grooveArea, preparedGroove } from '@tackboard/calc';
import type { FieldRefusal, Preparation, Weld } from '@tackboard/contract';
import { Refusal } from '../refusal.js';

/** The field of a preparation that an argument of the calculation stands for. */
const fieldOf: Readonly<Record<string, string>> = {
  includedAngleDeg: 'angleDeg',
  bevelAngleDeg: 'angleDeg',
};
const words: Readonly<Record<string, string>> = {
  rootFaceMm: 'root face',
  angleDeg: 'angle',
  rootRadiusMm: 'root radius',
  gapMm: 'root gap',
  penetrationMm: 'depth',
};

type Row = Pick<
  Weld,
  'number' | 'jointType' | 'thicknessAMm' | 'thicknessBMm' | 'grooveDepthMm' | 'preparation'
>;

/** Refuses a preparation that nobody could cut, such as a root face thicker than the plate. */
export function refuseImpossibleGrooves(welds: readonly Row[]): void {
  const faults = welds.flatMap((weld, at) => faultOf(weld, at) ?? []);
  if (faults.length === 0) return;
  throw new Refusal(
    'INVALID',
    `${faults.map(({ text }) => text).join('; ')}. Correct the preparation and save again.`,
    { fields: faults.map(({ field }) => field) },
  );
}

function faultOf(weld: Row, at: number): { text: string; field: FieldRefusal } | null {
  const { preparation, number, jointType, grooveDepthMm: depthMm } = weld;
  if (preparation === null) return null;
  const path = `body.welds.${at}`;
  if (jointType !== 'butt') {
    const allowed = 'none: only a butt weld has a preparation';
    const field = { field: `${path}.preparation`, given: preparation.kind, allowed };
    return { text: `weld ${number}: a ${jointType} has no groove preparation`, field };
  }
  const thicknessMm = Math.min(weld.thicknessAMm, weld.thicknessBMm);
  const fault = grooveFault({ thicknessMm, depthMm, preparation });
  if (fault === null) return null;
  const { field, given, allowed, text } = fault;
  return {
    text: `weld ${number}: ${text}`,
    field: { field: `${path}.${field}`, given, allowed },
  };
}

/** Why an edge cannot be cut so, with the field below the row that says it; null where it can. */
export function grooveFault(plate: {
  thicknessMm: number;
  depthMm: number | null;
  preparation: Preparation;
}): { text: string; field: string; given: string; allowed: string } | null {
  const area = grooveArea(preparedGroove(plate));
  if (area.ok) return null;
  const { argument, given, allowed } = area.refusal;
  const name = fieldOf[argument] ?? argument;
  return {
    text: `a ${words[name] ?? name} of ${String(given)} does not go with a plate of ${plate.thicknessMm} mm (allowed: ${allowed})`,
    field: name === 'penetrationMm' ? 'grooveDepthMm' : `preparation.${name}`,
    given: String(given),
    allowed,
  };
}
