import { dueDates } from '../dates/due-dates.js';
import { figures } from '../text/number-words.js';
import { tokenise } from '../text/tokens.js';

/** The one day that words name, counted from `today`; null where they name none, or several. */
export function dayIn(words: string, today: string): string | null {
  const [only, ...more] = dueDates(figures(tokenise(words)), today);
  return only && more.length === 0 ? only.date : null;
}
