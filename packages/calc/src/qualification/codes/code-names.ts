/** The codes the tool knows by name. A code without range rules is known only so that it can be named. */
export type CodeId =
  | 'ISO 15614-1'
  | 'ISO 15614-2'
  | 'ISO 9606-1'
  | 'ISO 9606-2'
  | 'ISO 14732'
  | 'ASME IX'
  | 'AWS D1.1';

/** Ranges never pass from one family to another. */
export type CodeFamily = 'ISO' | 'ASME IX' | 'AWS D1.1';

const families: Readonly<Record<CodeId, CodeFamily>> = {
  'ISO 15614-1': 'ISO',
  'ISO 15614-2': 'ISO',
  'ISO 9606-1': 'ISO',
  'ISO 9606-2': 'ISO',
  'ISO 14732': 'ISO',
  'ASME IX': 'ASME IX',
  'AWS D1.1': 'AWS D1.1',
};

const patterns: readonly (readonly [RegExp, CodeId])[] = [
  [/\bISO 15614-1(?!\d)/, 'ISO 15614-1'],
  [/\bISO 15614-2(?!\d)/, 'ISO 15614-2'],
  [/\bISO 9606-1(?!\d)/, 'ISO 9606-1'],
  [/\bISO 9606-2(?!\d)/, 'ISO 9606-2'],
  [/\bISO 14732(?!\d)/, 'ISO 14732'],
  [/\bASME (BPVC )?(SECTION |SEC )?IX\b/, 'ASME IX'],
  [/\bAWS D1 1(?!\d)/, 'AWS D1.1'],
];

/** A shop names a few codes, and each of them in every check. */
const mostNames = 500;

function remembered<T>(find: (text: string) => T): (text: string | null) => T | null {
  const known = new Map<string, T>();
  return (text) => {
    if (text === null) return null;
    const found = known.get(text);
    if (found !== undefined) return found;
    const value = find(text);
    if (known.size >= mostNames) known.clear();
    known.set(text, value);
    return value;
  };
}

function plainCode(text: string): string {
  return text
    .toUpperCase()
    .replace(/[\s._/]+/g, ' ')
    .replace(/ISO(?=\d)/, 'ISO ')
    .replace(/ISO EN /, 'ISO ')
    .trim();
}

/** The code that a text names ("EN ISO 9606-1:2017", "ASME BPVC.IX"), or null when it names none that is known. */
export const codeIdOf = remembered((text: string): CodeId | null => {
  const plain = plainCode(text);
  return patterns.find(([pattern]) => pattern.test(plain))?.[1] ?? null;
});

/** The family of a code; ranges stay within it. */
export function familyOf(code: CodeId): CodeFamily {
  return families[code];
}

/** The family that a job is welded under, from the code named on it: "ISO", "EN 1090-2", "AWS D1.1:2020". */
export const familyNamed = remembered((text: string): CodeFamily | null => {
  const code = codeIdOf(text);
  if (code !== null) return families[code];
  return /^(EN|ISO|EN ISO|ISO EN|(EN )?(ISO )?(1090|3834)-\d|ISO EN 1090-\d|EN 13445(-\d)?)\b/.test(
    plainCode(text),
  )
    ? 'ISO'
    : null;
});

/** Editions that are one text under two years: EN ISO 9606-1:2017 is ISO 9606-1:2012 with its corrections. */
const sameText: Partial<Record<CodeId, Readonly<Record<string, string>>>> = {
  'ISO 9606-1': { '2013': '2012', '2017': '2012' },
};

/** The year of an edition as it is typed ("2017+A1:2019"), or null when no year stands in it. */
export function editionYear(code: CodeId, edition: string | null): string | null {
  const year = edition?.match(/(?:19|20)\d\d/)?.[0] ?? null;
  return year === null ? null : (sameText[code]?.[year] ?? year);
}
