import { liveStream, LiveEvent, type SubjectType } from '@tackboard/contract';
import { addressOf } from '../api/request.js';

type Listener = (event: LiveEvent) => void;

const reopenAfterMs = 3_000;

/**
 * The live stream of changes. A broken stream is resumed after the last event that was seen, by the
 * browser itself or, when the server had refused it, from here. While the page is out of sight the stream
 * is closed, because a browser keeps only a few connections to one server for all its pages.
 */
class Live {
  connected = $state(false);
  /** When the connection was lost; null while it stands. */
  lostSince = $state.raw<Date | null>(null);
  #source: EventSource | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #lastSeq: number | undefined;
  readonly #listeners = new Map<Listener, ReadonlySet<SubjectType>>();

  /** Keeps the stream open while the page is in sight. Returns the way to stop. */
  start(): () => void {
    const follow = (): void => {
      if (document.hidden) this.#close();
      else this.#open();
    };
    follow();
    document.addEventListener('visibilitychange', follow);
    return () => {
      document.removeEventListener('visibilitychange', follow);
      this.#close();
    };
  }

  /** Calls `listener` for each change of one of the kinds of record. Returns the way to stop. */
  onEvent(types: readonly SubjectType[], listener: Listener): () => void {
    this.#listeners.set(listener, new Set(types));
    return () => this.#listeners.delete(listener);
  }

  #open(): void {
    this.#close();
    const source = new EventSource(addressOf(liveStream.path, {}, { after: this.#lastSeq }));
    this.#source = source;
    source.onopen = () => {
      this.connected = true;
      this.lostSince = null;
    };
    source.onerror = () => {
      this.connected = false;
      this.lostSince ??= new Date();
      if (source.readyState === EventSource.CLOSED)
        this.#timer = setTimeout(() => this.#open(), reopenAfterMs);
    };
    source.onmessage = (message: MessageEvent<string>) => this.#take(message.data);
  }

  #close(): void {
    clearTimeout(this.#timer);
    this.#source?.close();
    this.#source = null;
    this.connected = false;
  }

  #take(data: string): void {
    const event = LiveEvent.parse(JSON.parse(data));
    this.#lastSeq = event.seq;
    for (const [listener, types] of this.#listeners)
      if (types.has(event.subjectType)) listener(event);
  }
}

export const live = new Live();
