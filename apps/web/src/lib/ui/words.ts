import { getContext, setContext } from 'svelte';

/** The words that the shared parts print themselves; the root layout hands them in from the texts. */
export interface UiWords {
  readonly close: string;
  readonly required: string;
  readonly notANumber: (given: string) => string;
  readonly notADay: (given: string) => string;
  readonly impossibleDay: (given: string) => string;
  readonly dayHint: string;
  readonly noMatch: string;
  readonly choose: string;
  readonly padDelete: string;
  readonly padClear: string;
  readonly padSign: string;
  readonly givenAllowed: (given: string, allowed: string) => string;
  readonly refused: string;
  readonly rowsNone: string;
  readonly historyNone: string;
  readonly by: (who: string) => string;
}

const key = Symbol('ui words');

export function provideUiWords(words: UiWords): void {
  setContext(key, words);
}

export function uiWords(): UiWords {
  return getContext<UiWords>(key);
}
