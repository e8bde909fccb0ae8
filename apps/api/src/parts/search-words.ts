/**
 * How numbers, names and aliases are compared: without case, space, punctuation and signs. The per cent sign
 * counts as a letter, so that one typed into a search means itself.
 */
export function searchKey(words: string): string {
  return folded(words).replace(/[\s\p{P}\p{S}]/gu, (mark) => (mark === '%' ? mark : ''));
}

export function folded(words: string): string {
  return words.normalize('NFC').toLowerCase().trim();
}

/**
 * A LIKE pattern (escape character `\`) that finds at least everything that `matches` finds: the characters in
 * their order, with anything between them. Databases fold the case of ASCII letters alone, so any other character
 * stands for whatever is there.
 */
export function widePattern(typed: string): string {
  const characters = [...(searchKey(typed) || folded(typed))].map((character) => {
    if (/[a-z0-9]/.test(character)) return character;
    return /[%_\\]/.test(character) ? `\\${character}` : '_';
  });
  return `%${characters.join('%')}%`;
}

/** How well words fit what was typed: 0 the same, 1 begin with it, 2 contain it; null not at all. */
export function matches(words: string, typed: string): 0 | 1 | 2 | null {
  const wanted = searchKey(typed);
  // Nothing but punctuation was typed: it is looked for as it stands.
  const [found, sought] =
    wanted === '' ? [folded(words), folded(typed)] : [searchKey(words), wanted];
  if (found === sought) return 0;
  if (found.startsWith(sought)) return 1;
  return found.includes(sought) ? 2 : null;
}

interface Named {
  readonly id: string;
  readonly number: string;
  readonly name: string;
  readonly alias: string | null;
}

/** Ids of what fits, best first: the number itself, then an alias, then beginnings, then the rest by number. */
export function ranked(rows: readonly Named[], typed: string): string[] {
  const best = new Map<string, { rank: number; number: string }>();
  for (const row of rows) {
    const rank = rankOf(row, typed);
    const before = best.get(row.id);
    if (rank !== null && (before === undefined || rank < before.rank))
      best.set(row.id, { rank, number: row.number });
  }
  return [...best]
    .toSorted(([, a], [, b]) => a.rank - b.rank || a.number.localeCompare(b.number))
    .map(([id]) => id);
}

function rankOf({ number, name, alias }: Named, typed: string): number | null {
  const byNumber = matches(number, typed);
  const byAlias = alias === null ? null : matches(alias, typed);
  const byName = matches(name, typed);
  if (byNumber === 0) return 0;
  if (byAlias === 0) return 1;
  if (byName === 0) return 2;
  if ([byNumber, byAlias, byName].includes(1)) return 3;
  return [byNumber, byAlias, byName].includes(2) ? 4 : null;
}
