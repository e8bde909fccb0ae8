import { whenAnswered } from '../api/answered.js';
import { isFarOff, offsetFrom } from './clock.js';

const place = 'tackboard.clockOffsetMs';
const tickMs = 10_000;
/** Smaller differences come from the header's whole seconds. */
const leastChangeMs = 2_000;

/** The server's time as far as this device knows it; it outlives a reload without network. */
class ServerClock {
  #offsetMs = $state(keptOffset());
  /** Moves on every ten seconds, for ages on the screen. */
  nowMs = $state(0);

  constructor() {
    this.#tick();
  }

  /** Listens to the answers of the server. Returns the way to stop. */
  start(): () => void {
    const stop = whenAnswered((answered) => {
      const offsetMs = offsetFrom(answered);
      if (offsetMs !== null) this.#take(offsetMs);
    });
    const timer = setInterval(() => this.#tick(), tickMs);
    return () => {
      clearInterval(timer);
      stop();
    };
  }

  now(): Date {
    return new Date(Date.now() + this.#offsetMs);
  }

  /** How far this device is off, in milliseconds, when that is too far; else null. Ahead is positive. */
  get farOffMs(): number | null {
    return isFarOff(this.#offsetMs) ? -this.#offsetMs : null;
  }

  #take(offsetMs: number): void {
    if (Math.abs(offsetMs - this.#offsetMs) < leastChangeMs) return;
    this.#offsetMs = offsetMs;
    this.#tick();
    localStorage.setItem(place, String(Math.round(offsetMs)));
  }

  #tick(): void {
    this.nowMs = this.now().getTime();
  }
}

function keptOffset(): number {
  const kept = Number(localStorage.getItem(place));
  return Number.isFinite(kept) ? kept : 0;
}

export const serverClock = new ServerClock();
