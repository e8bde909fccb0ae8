import { m } from '$lib/paraglide/messages.js';
import type { UiWords } from '../ui/words.js';

export const shellWords: UiWords = {
  close: m.ui_close(),
  required: m.ui_required(),
  notANumber: (given) => m.ui_not_a_number({ given }),
  notADay: (given) => m.ui_not_a_day({ given }),
  impossibleDay: (given) => m.ui_impossible_day({ given }),
  dayHint: m.ui_day_hint(),
  noMatch: m.ui_no_match(),
  choose: m.ui_choose(),
  padDelete: m.ui_pad_delete(),
  padClear: m.ui_pad_clear(),
  padSign: m.ui_pad_sign(),
  givenAllowed: (given, allowed) =>
    given === '' ? allowed : m.ui_given_allowed({ given, allowed }),
  refused: m.ui_refused(),
  rowsNone: m.ui_rows_none(),
  historyNone: m.ui_history_none(),
  by: (who) => m.ui_by({ who }),
};
