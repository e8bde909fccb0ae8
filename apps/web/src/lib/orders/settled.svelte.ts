const settleMs = 200;

/** What is typed into a search field, and what it was once the keys had rested for a moment. */
export class Settled {
  typed = $state('');
  settled = $state('');
  #timer: ReturnType<typeof setTimeout> | undefined;

  type(typed: string): void {
    this.typed = typed;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => (this.settled = typed.trim()), settleMs);
  }
}
