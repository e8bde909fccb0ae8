interface Change {
  readonly name: string;
  readonly from: string;
  readonly to: string;
}

const longest = 80;

/** The name of an event read aloud: `person.pinIssued` becomes "Person pin issued". */
export function eventInWords(type: string): string {
  const words = type
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/[._-]+/g, ' ')
    .toLowerCase();
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The fields whose plain value differs before and after; nothing for a record that is new or gone. */
export function changesBetween(before: unknown, after: unknown): Change[] {
  if (!isRecord(before) || !isRecord(after)) return [];
  const names = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...names]
    .filter((name) => name !== 'version' && inWords(before[name]) !== inWords(after[name]))
    .map((name) => ({
      name: eventInWords(name).toLowerCase(),
      from: inWords(before[name]),
      to: inWords(after[name]),
    }));
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function inWords(value: unknown): string {
  if (value === undefined || value === null || value === '') return '–';
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return text.length > longest ? `${text.slice(0, longest)}…` : text;
}
