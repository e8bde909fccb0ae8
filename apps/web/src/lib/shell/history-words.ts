interface Change {
  readonly name: string;
  /** Null where the value is a list or a record: it changed, and the record itself shows how it is now. */
  readonly values: { readonly from: string; readonly to: string } | null;
}

const longest = 80;

const abbreviations = new Set(['wps', 'wpqr', 'ncr', 'pin', 'qa']);

/** The name of an event read aloud: `person.pinIssued` becomes "Person PIN issued". */
export function eventInWords(type: string): string {
  const words = type
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[\s._-]+/)
    .map((word) => (abbreviations.has(word) ? word.toUpperCase() : word))
    .join(' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The fields whose value differs before and after; nothing for a record that is new or gone. */
export function changesBetween(before: unknown, after: unknown): Change[] {
  if (!isRecord(before) || !isRecord(after)) return [];
  const names = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...names]
    .filter((name) => name !== 'version')
    .filter((name) => JSON.stringify(before[name]) !== JSON.stringify(after[name]))
    .map((name) => ({ name: eventInWords(name), values: valuesOf(before[name], after[name]) }));
}

function valuesOf(before: unknown, after: unknown): Change['values'] {
  const from = plainText(before);
  const to = plainText(after);
  return from === null || to === null ? null : { from, to };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function plainText(value: unknown): string | null {
  if (value === undefined || value === null || value === '') return '–';
  if (typeof value === 'object') return null;
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return text.length > longest ? `${text.slice(0, longest)}…` : text;
}
