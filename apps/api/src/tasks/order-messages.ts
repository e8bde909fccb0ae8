import type { PlanNote, Refused } from '@tackboard/calc';
import type { FoundOrder } from '../planning/found-order.js';
import type { Plan } from '../planning/plan.js';

/** What the searching thread is given. */
export interface OrderTask {
  readonly plan: Plan;
  readonly seed: number;
  readonly limitMs: number;
}

/** What it tells: better orders as they come, and at last how it ended. */
export type OrderMessage =
  | {
      readonly kind: 'found';
      readonly found: FoundOrder;
      readonly proven: boolean;
      readonly notes: readonly PlanNote[];
    }
  | { readonly kind: 'refused'; readonly refusal: Refused['refusal'] }
  | { readonly kind: 'ended' };
