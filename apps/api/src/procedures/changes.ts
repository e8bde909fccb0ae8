/** The fields that differ, before and after, for the event log. */
export function changedFields<T extends object>(
  before: T,
  after: T,
): { before: Partial<T>; after: Partial<T> } {
  const keys = (Object.keys(after) as (keyof T)[]).filter(
    (key) => JSON.stringify(before[key]) !== JSON.stringify(after[key]),
  );
  const pick = (from: T) => Object.fromEntries(keys.map((key) => [key, from[key]])) as Partial<T>;
  return { before: pick(before), after: pick(after) };
}
