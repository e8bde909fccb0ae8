import { isShortCircuit, processLetters } from '../../designations/processes.js';

type AwsPosition = 'F' | 'H' | 'V' | 'OH';
const singlePass: Readonly<Record<string, Readonly<Record<AwsPosition, number>>>> = {
  SMAW: { F: 10, H: 8, V: 12, OH: 8 },
  GMAW: { F: 12, H: 10, V: 12, OH: 8 },
  FCAW: { F: 12, H: 10, V: 12, OH: 8 },
};

/**
 * Largest single-pass fillet leg in mm that needs no test, metric column; null for a process the table does not
 * limit this way. AWS D1.1:2020, Table 5.1.
 */
export function maxSinglePassFilletMm(weld: {
  process: string;
  position: AwsPosition;
}): number | null {
  return singlePass[processLetters(weld.process) ?? '']?.[weld.position] ?? null;
}

/**
 * May a procedure of this process go without a test at all? GTAW and short-circuit GMAW may not; null when process
 * or transfer is not known. AWS D1.1, clause 3.2 (2000), kept since.
 */
export function mayBePrequalified(weld: {
  process: string | null;
  transfer: string | null;
}): boolean | null {
  const letters = processLetters(weld.process);
  if (letters === null) return null;
  if (letters !== 'GMAW') return ['SMAW', 'SAW', 'FCAW'].includes(letters);
  const short = isShortCircuit(weld);
  return short === null ? null : !short;
}
