import { figures } from '../text/number-words.js';
import { tokenise } from '../text/tokens.js';
import { dueDates } from './due-dates.js';

const NO_PROMISE = /\?|\b(?:can(?:no|')?t|cannot|won't|unable|not)\b/i;

/**
 * The one day, today or after, that words give: 'Friday 24 April now'. Null where they name none, or several, or ask,
 * or deny something.
 */
export function dayAhead(words: string, today: string): string | null {
  if (NO_PROMISE.test(words.replace(/’/g, "'"))) return null;
  const named = dueDates(figures(tokenise(words)), today).filter(({ date, sure }) => sure && date >= today);
  const [only, ...more] = new Set(named.map(({ date }) => date));
  return only !== undefined && more.length === 0 ? only : null;
}
