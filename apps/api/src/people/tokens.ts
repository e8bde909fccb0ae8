import { createHash, randomBytes, randomInt } from 'node:crypto';
import { hash, verify } from '@node-rs/argon2';

/** OWASP Password Storage Cheat Sheet, argon2id: 19 MiB of memory, two passes, one lane. */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

export function newToken(): string {
  return randomBytes(32).toString('base64url');
}

/** Only this print of a token is stored: a copy of the database signs nobody in. */
export function printOf(token: string): string {
  return createHash('sha256').update(token).digest('base64url');
}

export function newPin(): string {
  return String(randomInt(0, 1_000_000)).padStart(6, '0');
}

export async function hashSecret(secret: string): Promise<string> {
  return hash(secret, cost);
}

let nobody: Promise<string> | undefined;

/** Takes as long for an unknown person as for a known one, so that codes cannot be guessed by the clock. */
export async function secretMatches(stored: string | null, given: string): Promise<boolean> {
  nobody ??= hashSecret(newToken());
  const matches = await verify(stored ?? (await nobody), given);
  return stored !== null && matches;
}
