const listeners = new Set<() => void>();
let signedInAtMs = -Infinity;

/** Calls `listener` whenever the server says that nobody is signed in any more. Returns the way to stop. */
export function whenSignedOut(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Somebody signed in at this moment of the device's steady clock, in milliseconds. */
export function noteSignedIn(atMs: number): void {
  signedInAtMs = atMs;
}

/** A request was refused because nobody is signed in; one that left before somebody did says nothing of them. */
export function tellSignedOut(sentAtMs: number): void {
  if (sentAtMs < signedInAtMs) return;
  for (const listener of listeners) listener();
}
