import { cells, consumables, parts, people, procedures } from '@tackboard/contract';
import { call } from '$lib/api/call.js';
import { dayIn, addDays } from '$lib/format/time.js';
import { Resource } from '$lib/live/resource.svelte.js';
import { serverClock } from '$lib/offline/server-clock.svelte.js';
import { m } from '$lib/paraglide/messages.js';
import { session } from '$lib/session/session.svelte.js';

const none = { value: '', label: '–' };

/** What can be asked for, and what is chosen. Use it while a component is set up. */
export class SharedFields {
  lotId = $state('');
  personId = $state('');
  programId = $state('');
  wpsId = $state('');
  cellId = $state('');
  from = $state<string | null>(null);
  to = $state<string | null>(null);
  readonly today: string;
  readonly #lots = new Resource(async () => call(consumables.lots), ['lot']);
  readonly #people = new Resource(async () => call(people.list), ['person']);
  readonly #programs = new Resource(async () => call(parts.programs), ['program']);
  readonly #wpss = new Resource(async () => call(procedures.list), ['wps']);
  readonly #cells = new Resource(async () => call(cells.list), ['cell']);

  constructor() {
    this.today = dayIn(serverClock.now(), session.timeZone);
    this.to = this.today;
    this.from = addDays(this.today, -28);
  }

  get error(): Error | null {
    return this.#lots.error ?? this.#people.error ?? this.#programs.error ?? this.#wpss.error;
  }
  get lots() {
    const lots = this.#lots.data?.lots ?? [];
    return [
      none,
      ...lots.map((lot) => ({ value: lot.id, label: `${lot.number} · ${lot.itemName}` })),
    ];
  }
  get people() {
    const all = this.#people.data?.people ?? [];
    return [none, ...all.map(({ id, code, name }) => ({ value: id, label: `${code} ${name}` }))];
  }
  get programs() {
    const all = this.#programs.data?.programs ?? [];
    return [
      none,
      ...all.map(({ id, name, revision, cellCode }) => ({
        ...{ value: id, label: `${name} ${revision} · ${cellCode}` },
      })),
    ];
  }
  get wpss() {
    const all = this.#wpss.data?.wpss ?? [];
    return [
      none,
      ...all.map(({ id, number, revision }) => ({
        ...{ value: id, label: m.wps_label({ number, revision }) },
      })),
    ];
  }
  get cells() {
    const all = this.#cells.data?.cells ?? [];
    return [none, ...all.map(({ id, code, name }) => ({ value: id, label: `${code} ${name}` }))];
  }

  /** What is asked; null while it names nothing or a day is lacking. */
  get query() {
    const { lotId, personId, programId, wpsId, cellId, from, to } = this;
    const named = Object.entries({ lotId, personId, programId, wpsId, cellId }).filter(
      ([, value]) => value !== '',
    );
    if (named.length === 0 || from === null || to === null) return null;
    return { from, to, ...Object.fromEntries(named) };
  }
}
