import { dueDates } from '../dates/due-dates.js';
import { figures } from '../text/number-words.js';
import { tokenise } from '../text/tokens.js';

/** The one day that words name, counted from `today`; null where they name none, or several. */
export function dayIn(words: string, today: string): string | null {
  const [only, ...more] = dueDates(figures(tokenise(words)), today);
  return only && more.length === 0 ? only.date : null;
}

/** The one day that words name where they say nothing else: no length of time, nothing that is done on that day. */
export function dayNamed(words: string, today: string): string | null {
  const tokens = figures(tokenise(words));
  const [only] = dueDates(tokens, today);
  const isAll = only?.from === 0 && only.to === tokens.length;
  return isAll && !/\b(?:days?|weeks?|fortnights?|months?)\b/i.test(words) ? only.date : null;
}
