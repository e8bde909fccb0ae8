import { queue, type CellView, type SetUpCard } from '@tackboard/contract';
import { call } from '$lib/api/call.js';
import { Resource } from '$lib/live/resource.svelte.js';
import { m } from '$lib/paraglide/messages.js';
import { placesOf, scannedHere } from './scan.js';

/** The job that was scanned or typed at a cell. Use it while a component is set up. */
export class ScanDesk {
  code = $state('');
  /** Why nothing was opened, in words. */
  answer = $state('');
  error = $state.raw<Error | null>(null);
  #stepId = $state<string | null>(null);
  readonly #view: () => CellView | null;
  readonly #here: () => string;
  readonly #card;
  /** The opened step as long as it waits in the queue here. */
  readonly card = $derived.by((): SetUpCard | null => {
    const waits = this.#view()?.lane.steps.some(
      ({ id, state }) => id === this.#stepId && state !== 'held',
    );
    const card = this.#card.data;
    return waits === true && card?.step.id === this.#stepId ? card : null;
  });

  constructor(view: () => CellView | null, here: () => string) {
    this.#view = view;
    this.#here = here;
    this.#card = new Resource(
      async () => this.#fetchCard(),
      ['jobStep', 'job', 'run', 'wps', 'setUp', 'override', 'certificate'],
    );
  }

  /** Opens what the code names, or says in words why it cannot. */
  async open(): Promise<void> {
    const { code } = this;
    const view = this.#view();
    if (view === null || code.trim() === '') return;
    this.back();
    const found = scannedHere(code, view.lane.steps);
    const held = view.held?.step;
    if (found.kind === 'foreign') this.answer = m.cell_scan_foreign({ code: code.trim() });
    else if (found.kind === 'notHere') await this.#sayWhere(code);
    else if (found.step.id === held?.id)
      this.answer = m.cell_scan_held({ number: found.step.jobNumber });
    else if (held !== undefined)
      this.answer = m.cell_scan_other_held({
        held: held.jobNumber,
        number: found.step.jobNumber,
      });
    else {
      this.#stepId = found.step.id;
      // The next scan starts on an empty field; what was not taken stays to be corrected.
      this.code = '';
    }
  }

  back(): void {
    this.#stepId = null;
    this.answer = '';
    this.error = null;
  }

  async #fetchCard(): Promise<SetUpCard | null> {
    const jobStepId = this.#stepId;
    return jobStepId === null ? null : call(queue.card, { params: { jobStepId } });
  }

  async #sayWhere(code: string): Promise<void> {
    try {
      const places = placesOf(code, await call(queue.board));
      const [first] = places;
      this.answer =
        first === undefined
          ? m.cell_scan_none()
          : m.cell_scan_elsewhere({
              ...{ number: first.jobNumber, here: this.#here() },
              places: places
                .map(({ cellCode, stepName }) =>
                  m.cell_scan_place({ cell: cellCode, step: stepName }),
                )
                .join(', '),
            });
    } catch (error) {
      this.error = error instanceof Error ? error : new Error(String(error));
    }
  }
}
