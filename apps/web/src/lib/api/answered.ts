export interface Answered {
  /** The server's clock when it answered, as its Date header says; whole seconds. */
  readonly date: string | null;
  /** The clock of this device when the request left and when the answer came, in milliseconds. */
  readonly sentAtMs: number;
  readonly receivedAtMs: number;
}

const listeners = new Set<(answered: Answered) => void>();

/** Calls `listener` whenever the server answers. Returns the way to stop. */
export function whenAnswered(listener: (answered: Answered) => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function tellAnswered(answered: Answered): void {
  for (const listener of listeners) listener(answered);
}
