import { m } from '$lib/paraglide/messages.js';
import type { UiWords } from '../ui/words.js';

/** Asked anew each time, so that they follow the language of the screen. */
export const shellWords: UiWords = {
  get close() {
    return m.ui_close();
  },
  get required() {
    return m.ui_required();
  },
  notANumber: (given) => m.ui_not_a_number({ given }),
  notADay: (given) => m.ui_not_a_day({ given }),
  impossibleDay: (given) => m.ui_impossible_day({ given }),
  get dayHint() {
    return m.ui_day_hint();
  },
  get noMatch() {
    return m.ui_no_match();
  },
  get choose() {
    return m.ui_choose();
  },
  get padDelete() {
    return m.ui_pad_delete();
  },
  get padClear() {
    return m.ui_pad_clear();
  },
  get padSign() {
    return m.ui_pad_sign();
  },
  givenAllowed: (given, allowed) =>
    given === '' ? allowed : m.ui_given_allowed({ given, allowed }),
  get refused() {
    return m.ui_refused();
  },
  get rowsNone() {
    return m.ui_rows_none();
  },
  get historyNone() {
    return m.ui_history_none();
  },
  by: (who) => m.ui_by({ who }),
};
