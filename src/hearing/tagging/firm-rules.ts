import { monthAt, weekdayAt } from '../dates/calendar-words.js';
import { wordAt } from '../text/word-at.js';
import type { NameRule } from './name-rules.js';
import { asSaid } from './name-words.js';

/** "Ashlock running late, now Wed 29th", "Widdon delayed till Friday": work is late, and its day is moved. */
export const firmRunsLate: NameRule = (name) => {
  const { tokens, at, to, next, then } = name;
  if (!name.first || name.doubtful) return null;
  const is = /^(is|are|'s|'re)$/.test(next) ? 1 : 0;
  const [does, how] = is === 1 ? [then, name.later] : [next, then];
  const late =
    (does === 'running' && /^(late|behind|over|slow)$/.test(how)) ||
    /^(late|delayed|behind|closed|shut)$/.test(does);
  const dated = tokens.some(
    (_, day) => weekdayAt(tokens, day) !== undefined || monthAt(tokens, day) !== undefined,
  );
  const weeks = tokens.some((_, day) =>
    /^(days?|weeks?|fortnight|months?|tomorrow)$/.test(wordAt(tokens, day)),
  );
  return late && (dated || weeks)
    ? { kind: 'supplier', from: at, to, supplier: asSaid(tokens, at, to), known: false, speaks: true }
    : null;
};
