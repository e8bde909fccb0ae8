import { mechanisations, type WpsRanges } from '@tackboard/contract';
import { listFrom } from '../people/certificate-words.js';

interface Limits {
  min: number | null;
  max: number | null;
}

/** The variables that are typed as a range, in the order of a printed procedure. */
export const rangeFields = [
  { key: 'yieldMPa', unit: 'MPa' },
  { key: 'thicknessMm', unit: 'mm' },
  { key: 'throatMm', unit: 'mm' },
  { key: 'wireDiameterMm', unit: 'mm' },
  { key: 'currentA', unit: 'A' },
  { key: 'voltageV', unit: 'V' },
  { key: 'wireSpeedMMin', unit: 'm/min' },
  { key: 'travelMmMin', unit: 'mm/min' },
  { key: 'heatInputKjMm', unit: 'kJ/mm' },
] as const satisfies readonly { key: keyof WpsRanges; unit: string }[];

export type RangeKey = (typeof rangeFields)[number]['key'];

/** What stands in the fields; lists that are typed stay text, so that a comma at the end is not lost. */
export type RangesDraft = Record<RangeKey, Limits> & {
  process: string;
  mechanisations: string[];
  materialGroups: string;
  jointTypes: string[];
  positions: string[];
  fillers: string;
  gases: string;
  heatInputBasis: string;
  preheatMinC: number | null;
  interpassMaxC: number | null;
};

export function rangesDraft(ranges?: WpsRanges): RangesDraft {
  const limits = rangeFields.map(({ key }) => {
    const { min = null, max = null } = ranges?.[key] ?? {};
    return [key, { min, max }];
  });
  return {
    ...(Object.fromEntries(limits) as Record<RangeKey, Limits>),
    process: ranges?.process ?? '',
    mechanisations: [...(ranges?.mechanisations ?? [])],
    materialGroups: ranges?.materialGroups.join(', ') ?? '',
    jointTypes: [...(ranges?.jointTypes ?? [])],
    positions: [...(ranges?.positions ?? [])],
    fillers: ranges?.fillers.join(', ') ?? '',
    gases: ranges?.gases.join(', ') ?? '',
    heatInputBasis: ranges?.heatInputBasis ?? 'heatInput',
    preheatMinC: ranges?.preheatMinC ?? null,
    interpassMaxC: ranges?.interpassMaxC ?? null,
  };
}

/** What is sent for the fields. A range that is open at both ends says nothing and is sent as nothing. */
export function rangesOf(draft: RangesDraft): WpsRanges {
  const limits = rangeFields.map(({ key }) => {
    const { min, max } = draft[key];
    return [key, min === null && max === null ? null : { min, max }];
  });
  return {
    ...(Object.fromEntries(limits) as Record<RangeKey, Limits | null>),
    process: draft.process.trim(),
    mechanisations: mechanisations.filter((one) => draft.mechanisations.includes(one)),
    materialGroups: listFrom(draft.materialGroups),
    jointTypes: [...draft.jointTypes],
    positions: [...draft.positions],
    fillers: listFrom(draft.fillers),
    gases: listFrom(draft.gases),
    heatInputBasis: draft.heatInputBasis === 'arcEnergy' ? 'arcEnergy' : 'heatInput',
    preheatMinC: draft.preheatMinC,
    interpassMaxC: draft.interpassMaxC,
  };
}
