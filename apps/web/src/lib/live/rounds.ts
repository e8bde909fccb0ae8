/**
 * Several fetches of the same thing can be under way at once. Says which of their answers is worth taking: one that
 * is newer than what was taken last, even while a still newer one is on its way. In a shop where something changes
 * all the time there always is one.
 */
export class Rounds {
  #last = 0;
  #taken = 0;
  #floor = 0;

  /** A fetch because something changed somewhere. Answers its number. */
  told(): number {
    return ++this.#last;
  }

  /** A fetch after an act here, or for something else: answers of fetches begun before it are not taken any more. */
  asked(): number {
    this.#floor = ++this.#last;
    return this.#floor;
  }

  isNewest(round: number): boolean {
    return round === this.#last;
  }

  /** Whether the answer of a fetch is worth taking; if so, it counts as taken from here on. */
  take(round: number): boolean {
    if (round < this.#floor || round < this.#taken) return false;
    this.#taken = round;
    return true;
  }
}
