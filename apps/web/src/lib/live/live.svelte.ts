import { liveStream, LiveEvent, type SubjectType } from '@tackboard/contract';

type Listener = (event: LiveEvent | null) => void;

const reopenAfterMs = 3_000;

/**
 * The live stream of changes. The browser resumes a broken stream by itself after the last event it saw;
 * when the stream was refused or reopened from scratch, every listener is called with null: fetch again.
 */
class Live {
  connected = $state(false);
  /** When the connection was lost; null while it stands. */
  lostSince = $state.raw<Date | null>(null);
  #source: EventSource | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #listeners = new Map<Listener, ReadonlySet<SubjectType>>();

  /** Opens the stream, or opens it anew after somebody signed in or out. */
  open(): void {
    this.close();
    const source = new EventSource(liveStream.path);
    this.#source = source;
    source.onopen = () => {
      const wasLost = this.lostSince !== null;
      this.connected = true;
      this.lostSince = null;
      if (wasLost) this.#tellAll();
    };
    source.onerror = () => {
      this.connected = false;
      this.lostSince ??= new Date();
      if (source.readyState === EventSource.CLOSED)
        this.#timer = setTimeout(() => this.open(), reopenAfterMs);
    };
    source.onmessage = (message: MessageEvent<string>) => this.#take(message.data);
  }

  close(): void {
    clearTimeout(this.#timer);
    this.#source?.close();
    this.#source = null;
    this.connected = false;
  }

  /** Calls `listener` for each change of one of the kinds of record. Returns the way to stop. */
  onEvent(types: readonly SubjectType[], listener: Listener): () => void {
    this.#listeners.set(listener, new Set(types));
    return () => this.#listeners.delete(listener);
  }

  #take(data: string): void {
    const event = LiveEvent.parse(JSON.parse(data));
    for (const [listener, types] of this.#listeners)
      if (types.has(event.subjectType)) listener(event);
  }

  #tellAll(): void {
    for (const listener of this.#listeners.keys()) listener(null);
  }
}

export const live = new Live();
