import type { SubjectType } from '@tackboard/contract';
import { keepEqual } from './keep-equal.js';
import { live } from './live.svelte.js';
import { Rounds } from './rounds.js';

/** Changes often come in bursts; one fetch answers all that came this long after the first of them. */
const soonMs = 150;
/** For what stands beside the work: it leaves the tablet free for the next tap. */
export const unhurriedMs = 2_000;

/**
 * Something fetched from the server and kept fresh: fetched when the component starts, when a value that
 * `fetch` reads changes, and after a live change of one of `watch`. The last answer stays on
 * screen while a newer one is on its way or does not come; what is the same in both stays the same object. Use it
 * while a component is being set up.
 */
export class Resource<T> {
  data = $state.raw<T | null>(null);
  error = $state.raw<Error | null>(null);
  loading = $state(true);
  readonly #fetch: () => Promise<T>;
  readonly #rounds = new Rounds();
  #newest: Promise<void> = Promise.resolve();

  constructor(fetch: () => Promise<T>, watch: readonly SubjectType[] = [], settleMs = soonMs) {
    this.#fetch = fetch;
    $effect(() => {
      void this.reload();
    });
    $effect(() => {
      let timer: ReturnType<typeof setTimeout> | undefined;
      const stop = live.onEvent(watch, () => {
        // Not begun anew by each change: in a busy shop the fetch would never come.
        timer ??= setTimeout(() => {
          timer = undefined;
          this.#newest = this.#load(this.#rounds.told());
        }, settleMs);
      });
      return () => {
        clearTimeout(timer);
        stop();
      };
    });
  }

  /** Ends with what is newest on screen: a reload that is overtaken ends with the one that overtook it. */
  async reload(): Promise<void> {
    this.#newest = this.#load(this.#rounds.asked());
    return this.#newest;
  }

  async #load(round: number): Promise<void> {
    this.loading = true;
    try {
      const data = await this.#fetch();
      if (!this.#rounds.take(round)) return await this.#newest;
      this.data = keepEqual(this.data, data);
      this.error = null;
    } catch (error) {
      if (this.#rounds.take(round))
        this.error = error instanceof Error ? error : new Error(String(error));
    } finally {
      if (this.#rounds.isNewest(round)) this.loading = false;
    }
  }
}
