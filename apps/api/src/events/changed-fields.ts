/** The fields whose value differs, before and after: what the event log keeps of a change. */
export function changedFields<Fields extends object>(
  before: Fields,
  after: Partial<Fields>,
): { before: Partial<Fields>; after: Partial<Fields> } {
  const names = (Object.keys(after) as (keyof Fields)[]).filter(
    (name) =>
      after[name] !== undefined && JSON.stringify(before[name]) !== JSON.stringify(after[name]),
  );
  return { before: only(before, names), after: only(after, names) };
}

function only<Fields extends object>(
  from: Partial<Fields>,
  names: readonly (keyof Fields)[],
): Partial<Fields> {
  return Object.fromEntries(names.map((name) => [name, from[name]])) as Partial<Fields>;
}
