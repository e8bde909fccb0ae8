/** Fingerprint of a file, SHA-256 in hexadecimal; null where the browser does not offer it. */
export async function printOfFile(file: Pick<Blob, 'arrayBuffer'>): Promise<string | null> {
  // Absent on pages that came over plain HTTP from another computer.
  const { subtle } = globalThis.crypto as Partial<Crypto>;
  if (subtle === undefined) return null;
  const digest = await subtle.digest('SHA-256', await file.arrayBuffer());
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
