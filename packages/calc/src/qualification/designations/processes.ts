const lettersByNumber: Readonly<Record<string, string>> = {
  '111': 'SMAW',
  '114': 'FCAW',
  '121': 'SAW',
  '122': 'SAW',
  '124': 'SAW',
  '125': 'SAW',
  '126': 'SAW',
  '131': 'GMAW',
  '132': 'FCAW',
  '133': 'GMAW',
  '135': 'GMAW',
  '136': 'FCAW',
  '138': 'GMAW',
  '141': 'GTAW',
  '142': 'GTAW',
  '143': 'GTAW',
  '145': 'GTAW',
  '15': 'PAW',
  '311': 'OFW',
};
const letters: ReadonlySet<string> = new Set(Object.values(lettersByNumber));

/**
 * The letters of US use for a process number of ISO 4063; letters stay as they are, anything else is null. Several
 * numbers share letters: 131, 133, 135 and 138 are all GMAW. Source: ISO 4063 lists beside AWS A3.0.
 */
export function processLetters(process: string | null): string | null {
  const plain = process?.trim().toUpperCase().replace(/-S$/, '') ?? '';
  if (letters.has(plain)) return plain;
  return lettersByNumber[plain] ?? null;
}

/** GMAW in short circuit; null when the process or its transfer is not known. */
export function isShortCircuit(test: {
  process: string | null;
  transfer: string | null;
}): boolean | null {
  const name = processLetters(test.process);
  if (name === null) return null;
  if (name !== 'GMAW') return false;
  if (/-S$/i.test(test.process?.trim() ?? '')) return true;
  return test.transfer === null ? null : test.transfer === 'D';
}

/** For a record that names GMAW-S and another transfer beside it. */
export const transferContradicts = {
  cannotSay: 'the process is named short circuit, the transfer is not',
} as const;
