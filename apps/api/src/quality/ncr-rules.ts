import type { Ncr } from '@tackboard/contract';

export interface Decided {
  readonly disposition: Ncr['decisions'][number]['disposition'];
  readonly quantity: number;
  readonly accepted: number | null;
}

interface Parts {
  readonly quantity: number;
  readonly decisions: readonly Decided[];
}

/** Parts of an NCR that nobody has decided on; reworked parts that were turned down are among them again. */
export function undecidedOf({ quantity, decisions }: Parts): number {
  return decisions.reduce(
    (left, one) => left - one.quantity + (one.accepted === null ? 0 : one.quantity - one.accepted),
    quantity,
  );
}

/** Parts in rework or waiting for its inspection. */
function inRework({ decisions }: Parts): number {
  return decisions
    .filter(({ disposition, accepted }) => disposition === 'rework' && accepted === null)
    .reduce((sum, { quantity }) => sum + quantity, 0);
}

/** Parts that are neither good nor scrap yet. */
export function quarantinedOf(parts: Parts): number {
  return undecidedOf(parts) + inRework(parts);
}

export function stateOf(ncr: Parts & { readonly closedAt: Date | null }): Ncr['state'] {
  if (ncr.closedAt !== null) return 'closed';
  return undecidedOf(ncr) > 0 ? 'open' : 'decided';
}

/** What a disposition does to the counts of the step at once; rework only after its inspection. */
export function effectOf({ disposition, quantity }: Omit<Decided, 'accepted'>): {
  good: number;
  scrap: number;
} {
  switch (disposition) {
    case 'rework':
      return { good: 0, scrap: 0 };
    case 'scrap':
      return { good: 0, scrap: quantity };
    case 'useAsIs':
    case 'concession':
      return { good: quantity, scrap: 0 };
  }
}
