type Row = Readonly<Record<string, unknown>>;

/**
 * The newer of two answers of the server, with every part that is as before taken from the former one, so that what
 * is drawn from it is not drawn anew. Rows with an id are found by it wherever they stand. Plain JSON values only;
 * neither answer is changed.
 */
export function keepEqual<T>(former: unknown, next: T): T {
  return kept(former, next) as T;
}

function kept(former: unknown, next: unknown): unknown {
  if (former === next) return former;
  if (Array.isArray(next)) return Array.isArray(former) ? keptList(former, next) : next;
  if (isRow(next)) return isRow(former) ? keptRow(former, next) : next;
  return next;
}

function keptList(former: readonly unknown[], next: readonly unknown[]): readonly unknown[] {
  const byId = new Map(
    former.flatMap((row) => (idOf(row) === undefined ? [] : [[idOf(row), row]])),
  );
  const rows = next.map((row, at) => kept(byId.get(idOf(row)) ?? former[at], row));
  return isSame(rows, former) ? former : rows;
}

function keptRow(former: Row, next: Row): Row {
  const keys = Object.keys(next);
  const row = Object.fromEntries(keys.map((key) => [key, kept(former[key], next[key])]));
  const same = keys.length === Object.keys(former).length && keys.every((key) => key in former);
  return same && keys.every((key) => row[key] === former[key]) ? former : row;
}

function isSame(rows: readonly unknown[], former: readonly unknown[]): boolean {
  return rows.length === former.length && rows.every((row, at) => row === former[at]);
}

function isRow(value: unknown): value is Row {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function idOf(value: unknown): unknown {
  return isRow(value) ? value['id'] : undefined;
}
