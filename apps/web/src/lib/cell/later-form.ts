import type { Component } from 'svelte';

/** A form that is fetched after the screen it belongs to; once it is here, a tap opens it in the same frame. */
export class LaterForm<Props extends object> {
  /** Null until it was fetched. */
  here: Component<Props> | null = null;
  readonly #load: () => Promise<{ default: Component<Props> }>;

  constructor(load: () => Promise<{ default: Component<Props> }>) {
    this.#load = load;
  }

  /** Throws where it is asked for without network before it was ever fetched. */
  async fetch(): Promise<Component<Props>> {
    const { default: form } = await this.#load();
    this.here = form;
    return form;
  }
}
