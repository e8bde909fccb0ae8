import { draftsFrom, withField, type Drafts } from './draft-text.js';

const keptAs = 'tackboard.drafts';

/**
 * What is half typed at this tablet, by job. It outlives the sign-out after ten minutes and a newer app; without
 * storage it outlives the sign-out only.
 */
class DraftStore {
  #drafts = $state.raw<Drafts>(draftsFrom(read()));

  field(stepId: string | null, name: string): string {
    return stepId === null ? '' : (this.#drafts[stepId]?.[name] ?? '');
  }

  set(stepId: string | null, name: string, value: string): void {
    if (stepId === null) return;
    this.#drafts = withField(this.#drafts, { stepId, name, value });
    try {
      localStorage.setItem(keptAs, JSON.stringify(this.#drafts));
    } catch {
      // Full or forbidden: what is typed stays until the page is closed.
    }
  }
}

function read(): string | null {
  try {
    return localStorage.getItem(keptAs);
  } catch {
    return null;
  }
}

export const drafts = new DraftStore();

/** One field of a form: begins as it was left half typed, and is kept with each key until the server has it. */
export class DraftField {
  #value = $state('');
  readonly #at: { readonly of: string | null; readonly name: string };

  /** `of` is the job step, or what else the form is about; `otherwise` stands in a field nobody typed into. */
  constructor(of: string | null, name: string, otherwise = '') {
    this.#at = { of, name };
    const kept = drafts.field(of, name);
    this.#value = kept === '' ? otherwise : kept;
  }

  get value(): string {
    return this.#value;
  }
  set value(typed: string) {
    this.#value = typed;
    drafts.set(this.#at.of, this.#at.name, typed);
  }

  /** The server has it. */
  forget(): void {
    drafts.set(this.#at.of, this.#at.name, '');
  }
}
