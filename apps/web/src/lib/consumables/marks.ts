import type { consumables, ReplyOf } from '@tackboard/contract';

export type Item = ReplyOf<typeof consumables.items>['items'][number];
export type Lot = ReplyOf<typeof consumables.lots>['lots'][number];
export type Load = ReplyOf<typeof consumables.loads>['loads'][number];

/** What the batch in work at a cell, or else the next one, still takes. */
export interface BatchNeed {
  readonly cellId: string;
  readonly jobNumber: number;
  /** Null where the set-up does not say it. */
  readonly wireKg: number | null;
  readonly gasL: number | null;
}

export type LoadState =
  | { readonly kind: 'usedUp' }
  | { readonly kind: 'short' | 'enough'; readonly need: number; readonly jobNumber: number }
  | { readonly kind: 'unknown' };

/** Whether what is left of a load lasts for the batch at its cell. */
export function loadState(
  load: Pick<Load, 'kind' | 'unit' | 'leftAmount'>,
  batch: BatchNeed | undefined,
): LoadState {
  if (load.leftAmount <= 0) return { kind: 'usedUp' };
  const need = batch === undefined ? null : needOf(load, batch);
  if (batch === undefined || need === null) return { kind: 'unknown' };
  const kind = load.leftAmount < need ? 'short' : 'enough';
  return { kind, need, jobNumber: batch.jobNumber };
}

/** In the unit of the load; null where the batch is reckoned in another one. */
function needOf({ kind, unit }: Pick<Load, 'kind' | 'unit'>, batch: BatchNeed): number | null {
  if (kind === 'wire' && unit === 'kg') return batch.wireKg;
  if (kind === 'gas' && unit === 'l') return batch.gasL;
  return null;
}

/** Asked for what becomes part of the weld: wire and electrodes, by common practice neither gas nor tips. */
export function lacksCertificate(lot: Pick<Lot, 'kind' | 'certificate'>): boolean {
  return (lot.kind === 'wire' || lot.kind === 'electrode') && lot.certificate === null;
}
