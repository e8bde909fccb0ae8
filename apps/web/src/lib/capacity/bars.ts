import type { WeekLoad } from '@tackboard/contract';

/** No bar is drawn higher than this; the number above it tells the truth. */
export const highestShare = 2;

/** Heights as shares of the open hours; `cut` where the bar would be higher than is drawn. */
interface LoadBar {
  readonly carried: number;
  readonly due: number;
  readonly cut: boolean;
}

type Load = Pick<WeekLoad, 'openMin' | 'dueMin' | 'carriedMin' | 'share'>;

/** The bar of a week: what is carried below, what is due on it; null where nothing is open. */
export function barOf({ openMin, dueMin, carriedMin, share }: Load): LoadBar | null {
  if (share === null) return null;
  const carried = Math.min(highestShare, carriedMin / openMin);
  const due = Math.min(highestShare - carried, dueMin / openMin);
  return { carried, due, cut: share > highestShare };
}
