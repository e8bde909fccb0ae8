/** Travel is stored in mm/min and shown in the unit of the cell's dial. */
export type TravelUnit = 'mm/min' | 'cm/min' | 'in/min';

/** Millimetres per minute in one of the dial's unit; the inch is 25.4 mm exactly. */
const mmMinPerUnit = { 'mm/min': 1, 'cm/min': 10, 'in/min': 25.4 } as const satisfies Record<
  TravelUnit,
  number
>;

export function travelOnDial(travelMmMin: number, unit: TravelUnit): number {
  return travelMmMin / mmMinPerUnit[unit];
}

export function travelFromDial(dialled: number, unit: TravelUnit): number {
  return dialled * mmMinPerUnit[unit];
}
