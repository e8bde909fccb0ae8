import {
  consumables,
  setUpMemory,
  type Cell,
  type SetUpCard,
  type StartPoint,
} from '@tackboard/contract';
import { call } from '$lib/api/call.js';
import { Resource } from '$lib/live/resource.svelte.js';
import { askOrRecall } from '$lib/offline/answers.js';
import { m } from '$lib/paraglide/messages.js';

/** What the card asks to stand at the cell, point by point. Use it while a component is set up. */
export class Shown {
  readonly #cell: () => Cell;
  readonly #card: () => SetUpCard | null;
  readonly #feeder;
  readonly #memory;

  constructor(cell: () => Cell, card: () => SetUpCard | null) {
    this.#cell = cell;
    this.#card = card;
    this.#feeder = new Resource(async () => {
      const cellId = cell().id;
      return askOrRecall(`feeder ${cellId}`, consumables.feeder.reply, async (signal) =>
        call(consumables.feeder, { params: { cellId }, signal }),
      );
    }, ['lot']);
    this.#memory = new Resource(async () => {
      const jobStepId = card()?.step.id;
      if (jobStepId === undefined) return null;
      return askOrRecall(`memory ${cell().id}`, setUpMemory.memory.reply, async (signal) =>
        call(setUpMemory.memory, { params: { jobStepId }, signal }),
      );
    }, ['setUp', 'program']);
  }

  /** The program that the set-up names; null where there is none. */
  get program(): string | null {
    return this.#card()?.setUp?.programName ?? null;
  }
  /** The revision that is known to be loaded: said last for this step, else the kept one. */
  get revision(): string | null {
    const said = this.#memory.data?.programAtClose ?? this.#memory.data?.programAtStart;
    return said ?? this.#card()?.setUp?.programRevision ?? null;
  }

  readonly words = $derived.by((): Record<StartPoint, string> => {
    const card = this.#card();
    return {
      part: card === null ? '' : partWords(card),
      consumables: this.#consumables(),
      fixture: this.#fixture(),
      settings: this.#settings(),
      safety: this.#safety(),
    };
  });

  #consumables(): string {
    const { wireName = null, gasName = null } = this.#card()?.setUp ?? {};
    const words = [wireName, gasName].flatMap((item) => {
      if (item === null) return [];
      const load = this.#feeder.data?.loads.find(({ itemName }) => itemName === item);
      return [load === undefined ? item : m.start_lot({ item, lot: load.lotNumber })];
    });
    return orNone(words);
  }

  #fixture(): string {
    const { fixtureCode, fixturePlace, torch } = this.#card()?.setUp ?? {};
    const at = { code: fixtureCode ?? '', place: fixturePlace ?? '–' };
    return orNone([fixtureCode ? m.cell_fixture_at(at) : '', torch ?? '']);
  }

  #settings(): string {
    const { wps = null } = this.#card() ?? {};
    const { program, revision } = this;
    return [
      program === null ? '' : m.cell_program_rev({ name: program, revision: revision ?? '–' }),
      wps === null ? '' : m.cell_wps_rev({ number: wps.number, revision: wps.revision }),
      m.start_dialled(),
    ]
      .filter((words) => words !== '')
      .join(' · ');
  }

  #safety(): string {
    const extraction = this.#card()?.extraction || this.#cell().extraction;
    return extraction === '' ? m.start_safe() : `${extraction}. ${m.start_safe()}`;
  }
}

function partWords({ step }: SetUpCard): string {
  const words = { part: step.partNumber, revision: step.revision };
  return `${m.cell_part(words)} · ${m.start_parts({ quantity: step.quantity })}`;
}

function orNone(words: readonly string[]): string {
  const named = words.filter((one) => one !== '');
  return named.length === 0 ? m.start_none() : named.join(' · ');
}
