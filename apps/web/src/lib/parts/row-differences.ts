interface Row {
  readonly number: unknown;
}

interface Words {
  readonly labelOf: (key: string) => string;
  readonly onTheList: string;
}

/**
 * Two versions of a list, flattened for a comparison: rows with the same number are compared value by value,
 * a row that only one side has is one line.
 */
export function rowDifferences(
  typed: readonly Row[],
  stored: readonly Row[],
  { labelOf, onTheList }: Words,
): { typed: Record<string, unknown>; stored: Record<string, unknown> } {
  const numbers = new Set([...typed, ...stored].map(({ number }) => String(number)));
  const flat = { typed: {}, stored: {} } as Record<'typed' | 'stored', Record<string, unknown>>;
  for (const number of numbers) {
    const mine = typed.find((row) => String(row.number) === number);
    const theirs = stored.find((row) => String(row.number) === number);
    if (mine === undefined || theirs === undefined) {
      flat.typed[number] = mine && onTheList;
      flat.stored[number] = theirs && onTheList;
      continue;
    }
    Object.assign(flat.typed, named(mine, number, labelOf));
    Object.assign(flat.stored, named(theirs, number, labelOf));
  }
  return flat;
}

function named(row: Row, number: string, labelOf: Words['labelOf']): Record<string, unknown> {
  const values = Object.entries(row).filter(([key]) => !['row', 'kept', 'number'].includes(key));
  return Object.fromEntries(values.map(([key, value]) => [`${number}, ${labelOf(key)}`, value]));
}
