const listeners = new Set<() => void>();

/** Calls `listener` whenever the server says that nobody is signed in any more. Returns the way to stop. */
export function whenSignedOut(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function tellSignedOut(): void {
  for (const listener of listeners) listener();
}
