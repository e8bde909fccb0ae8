import { beads, currentKinds, weldedFrom, type WpsDetails } from '@tackboard/contract';
import { m } from '../paraglide/messages.js';

type Limits = { min: number | null; max: number | null };
type TextKey = {
  [Key in keyof WpsDetails]: WpsDetails[Key] extends string ? Key : never;
}[keyof WpsDetails];
type NumberKey = {
  [Key in keyof WpsDetails]: number extends WpsDetails[Key] ? Key : never;
}[keyof WpsDetails];
type RangeKey = 'contactTipDistanceMm' | 'gasFlowLMin' | 'backingGasFlowLMin' | 'heatTreatmentC';
type ChoiceKey = 'sides' | 'bead' | 'currentKind';

export type DetailField =
  | { readonly kind: 'text'; readonly key: TextKey }
  | { readonly kind: 'number'; readonly key: NumberKey; readonly unit: string }
  | { readonly kind: 'range'; readonly key: RangeKey; readonly unit: string }
  | { readonly kind: 'choice'; readonly key: ChoiceKey };

const words = (key: TextKey) => ({ kind: 'text', key }) as const;
const number = (key: NumberKey, unit: string) => ({ kind: 'number', key, unit }) as const;
const range = (key: RangeKey, unit: string) => ({ kind: 'range', key, unit }) as const;
const choice = (key: ChoiceKey) => ({ kind: 'choice', key }) as const;

/** In the order of the headings of a printed procedure. */
export const detailGroups: readonly {
  readonly title: () => string;
  readonly fields: readonly DetailField[];
}[] = [
  {
    title: m.wps_group_preparation,
    fields: [
      ...[words('cleaning'), words('tacking'), choice('sides'), words('backing')],
      words('backGouging'),
    ],
  },
  {
    title: m.wps_group_technique,
    fields: [
      ...[words('runSequence'), choice('bead'), number('weaveMaxMm', 'mm')],
      words('torchAngle'),
    ],
  },
  {
    title: m.wps_group_electrical,
    fields: [
      ...[choice('currentKind'), words('pulse'), words('transfer'), words('tungsten')],
      ...[number('tungstenMm', 'mm'), range('contactTipDistanceMm', 'mm')],
    ],
  },
  {
    title: m.wps_group_filler_gas,
    fields: [
      ...[words('fillerMake'), words('fillerHandling'), number('nozzleMm', 'mm')],
      ...[range('gasFlowLMin', 'l/min'), words('backingGas'), range('backingGasFlowLMin', 'l/min')],
    ],
  },
  {
    title: m.wps_group_heat,
    fields: [
      ...[number('preheatKeepC', '°C'), number('interpassMinC', '°C')],
      ...[number('postHeatC', '°C'), number('postHeatMin', 'min'), words('heatTreatment')],
      ...[range('heatTreatmentC', '°C'), number('heatTreatmentMin', 'min')],
    ],
  },
];

const labels: Readonly<Record<Exclude<keyof WpsDetails, 'groove'>, () => string>> = {
  sides: m.wps_detail_sides,
  cleaning: m.wps_detail_cleaning,
  tacking: m.wps_detail_tacking,
  backing: m.wps_detail_backing,
  backGouging: m.wps_detail_back_gouging,
  runSequence: m.wps_detail_run_sequence,
  bead: m.wps_detail_bead,
  weaveMaxMm: m.wps_detail_weave,
  torchAngle: m.wps_detail_torch_angle,
  currentKind: m.wps_detail_current_kind,
  pulse: m.wps_detail_pulse,
  transfer: m.wpqr_transfer,
  fillerMake: m.wps_detail_filler_make,
  fillerHandling: m.wps_detail_filler_handling,
  tungsten: m.wps_detail_tungsten,
  tungstenMm: m.wps_detail_tungsten_size,
  nozzleMm: m.wps_detail_nozzle,
  contactTipDistanceMm: m.wps_detail_contact_tip,
  gasFlowLMin: m.wpqr_gas_flow,
  backingGas: m.wps_detail_backing_gas,
  backingGasFlowLMin: m.wps_detail_backing_gas_flow,
  preheatKeepC: m.wps_detail_preheat_keep,
  interpassMinC: m.wps_detail_interpass_min,
  postHeatC: m.wps_detail_post_heat,
  postHeatMin: m.wps_detail_post_heat_time,
  heatTreatment: m.wps_detail_heat_treatment,
  heatTreatmentC: m.wps_detail_heat_treatment_temperature,
  heatTreatmentMin: m.wps_detail_heat_treatment_time,
};

export function detailLabel(key: Exclude<keyof WpsDetails, 'groove'>): string {
  return labels[key]();
}

const choiceWords = {
  one: m.wpqr_sides_one,
  both: m.wpqr_sides_both,
  stringer: m.wps_bead_stringer,
  weave: m.wps_bead_weave,
  'DC+': m.wps_current_dc_plus,
  'DC-': m.wps_current_dc_minus,
  AC: m.wps_current_ac,
} as const satisfies Record<
  (typeof weldedFrom | typeof beads | typeof currentKinds)[number],
  () => string
>;
const choices: Readonly<Record<ChoiceKey, readonly (keyof typeof choiceWords)[]>> = {
  sides: weldedFrom,
  bead: beads,
  currentKind: currentKinds,
};

export function choiceWord(value: keyof typeof choiceWords): string {
  return choiceWords[value]();
}

/** The choices of a field; the empty one is not stated. */
export function choiceOptions(key: ChoiceKey): { value: string; label: string }[] {
  return [
    { value: '', label: m.wps_not_stated() },
    ...choices[key].map((value) => ({ value, label: choiceWord(value) })),
  ];
}

/** What stands in the fields: an open range and a choice not made are empty, never missing. */
export type DetailsDraft = Omit<WpsDetails, RangeKey | ChoiceKey> &
  Record<RangeKey, Limits> &
  Record<ChoiceKey, string>;

export function detailsDraft(details: WpsDetails): DetailsDraft {
  const limits = (value: Limits | null) => ({ min: value?.min ?? null, max: value?.max ?? null });
  return {
    ...details,
    contactTipDistanceMm: limits(details.contactTipDistanceMm),
    gasFlowLMin: limits(details.gasFlowLMin),
    backingGasFlowLMin: limits(details.backingGasFlowLMin),
    heatTreatmentC: limits(details.heatTreatmentC),
    ...{ sides: details.sides ?? '', bead: details.bead ?? '' },
    currentKind: details.currentKind ?? '',
  };
}

/** What is sent; a range that is open at both ends says nothing. */
export function detailsOf(draft: DetailsDraft): WpsDetails {
  const limits = ({ min, max }: Limits) => (min === null && max === null ? null : { min, max });
  return {
    ...draft,
    contactTipDistanceMm: limits(draft.contactTipDistanceMm),
    gasFlowLMin: limits(draft.gasFlowLMin),
    backingGasFlowLMin: limits(draft.backingGasFlowLMin),
    heatTreatmentC: limits(draft.heatTreatmentC),
    sides: weldedFrom.find((one) => one === draft.sides) ?? null,
    bead: beads.find((one) => one === draft.bead) ?? null,
    currentKind: currentKinds.find((one) => one === draft.currentKind) ?? null,
  };
}
