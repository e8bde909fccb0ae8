import { m } from '$lib/paraglide/messages.js';
import type { Item, Load, LoadState } from './marks.js';
import { shopUnits } from '$lib/units/shop-units.svelte.js';

const kindWords = {
  wire: m.stock_wire,
  gas: m.stock_gas,
  electrode: m.stock_electrode,
  tip: m.stock_tip,
} as const satisfies Record<Item['kind'], () => string>;

export function kindWord(kind: Item['kind']): string {
  return kindWords[kind]();
}

/** "3.2 kg"; amounts are kept as weighed. */
export function amount(value: number, unit: string): string {
  return shopUnits.words(value, unit);
}

/** What is reckoned and not weighed: litres whole, the rest to the hundredth. */
function reckoned(value: number, unit: string): string {
  return shopUnits.words(value, unit, { decimals: unit === 'l' ? 0 : 2 });
}

export function loadMark(load: Pick<Load, 'unit'>, state: LoadState) {
  if (state.kind === 'unknown') return { tone: 'unknown', word: m.stock_need_unknown() } as const;
  if (state.kind === 'usedUp') return { tone: 'stop', word: m.stock_used_up() } as const;
  const need = { need: reckoned(state.need, load.unit), job: state.jobNumber };
  return state.kind === 'short'
    ? ({ tone: 'tell', word: m.stock_short(need) } as const)
    : ({ tone: 'good', word: m.stock_enough(need) } as const);
}

const fieldWords: Readonly<Record<string, () => string>> = {
  kind: m.stock_kind,
  designation: m.stock_designation,
  name: m.stock_name,
  wireDiameterMm: m.stock_diameter,
  unit: m.stock_unit,
  itemId: m.stock_item,
  number: m.stock_lot_number,
  receivedOn: m.stock_received,
  certificate: m.stock_certificate,
  receivedAmount: m.stock_amount,
  cellId: m.order_made_cell,
  lotId: m.stock_lot,
  amount: m.stock_amount,
};

export function stockLabel(field: string): string {
  const name = field.replace(/^(body|params)\./, '');
  return fieldWords[name]?.() ?? name;
}
