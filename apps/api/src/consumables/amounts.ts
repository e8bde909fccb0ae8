/** Amounts are weighed and typed; beyond a millionth there is only the noise of sums in floating point. */
export function asWeighed(amount: number): number {
  return Math.round(amount * 1e6) / 1e6;
}

/** What is left in store after `amount` was taken; null where there is less than that. */
export function afterTaking(leftAmount: number, amount: number): number | null {
  const left = asWeighed(leftAmount - amount);
  return left < 0 ? null : left;
}
