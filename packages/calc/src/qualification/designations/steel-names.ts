/**
 * The specified minimum yield in MPa that the name of a structural steel carries ("S355J2+N" is 355), for the
 * thinnest product; null for every other name. EN 10027-1, names by use (from memory).
 */
export function yieldFromName(name: string): number | null {
  const digits = /^\s*[SPLE]\s?(\d{3})(?!\d)/i.exec(name)?.[1];
  return digits === undefined ? null : Number(digits);
}
