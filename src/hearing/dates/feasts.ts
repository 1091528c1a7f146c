import { easter } from 'date-easter';
import { standsAt, wordAt } from '../text/word-at.js';
import { dayOf, endOfMonth, weekdayOfWeek, type Day } from './day-arithmetic.js';
import { found, longest, type DateRule } from './found-date.js';

/**
 * Easter Sunday of a Gregorian year, by date-easter. That is what date-holidays reckons Easter with; the whole of it would
 * cost the reader 150 ms and 30 MB at its start, and has no rules for the days before and after that people name.
 */
const easterSunday = (year: number): Day | null => {
  const { month, day } = easter(year);
  return dayOf(year, month, day);
};

type Feast = { said: readonly string[]; on: (year: number) => Day | null; sure: boolean };

const feastOf = (said: string, on: (year: number) => Day | null, sure = true): Feast => ({
  said: said.split(' '),
  on,
  sure,
});
const fromEaster =
  (days: number) =>
  (year: number): Day | null =>
    easterSunday(year)?.plus({ days }) ?? null;
const on =
  (month: number, date: number) =>
  (year: number): Day | null =>
    dayOf(year, month, date);

/** The longest names first. */
const FEASTS: readonly Feast[] = [
  feastOf('good friday', fromEaster(-2)),
  feastOf('maundy thursday', fromEaster(-3)),
  feastOf('shrove tuesday', fromEaster(-47)),
  feastOf('easter monday', fromEaster(1)),
  feastOf('easter saturday', fromEaster(-1)),
  feastOf('easter sunday', fromEaster(0)),
  feastOf('easter weekend', fromEaster(-1), false),
  feastOf('easter', fromEaster(0), false),
  feastOf('whit monday', fromEaster(50)),
  feastOf('christmas eve', on(12, 24)),
  feastOf('xmas eve', on(12, 24)),
  feastOf('christmas day', on(12, 25)),
  feastOf('xmas day', on(12, 25)),
  feastOf('christmas', on(12, 25)),
  feastOf('xmas', on(12, 25)),
  feastOf('boxing day', on(12, 26)),
  feastOf("new year 's eve", on(12, 31)),
  feastOf("new year 's day", on(1, 1)),
  feastOf('the new year', on(1, 1), false),
  feastOf('new year', on(1, 1), false),
];

/** "Good Friday", "by Christmas": the coming one. */
const feast: DateRule = (tokens, at, today) => {
  const named = FEASTS.find(({ said }) => standsAt(tokens, at, said));
  if (named === undefined || /^(last|since|after)$/.test(wordAt(tokens, at - 1))) return null;
  const thisYear = named.on(today.year);
  const date = thisYear !== null && thisYear < today ? named.on(today.year + 1) : thisYear;
  return found(date, named.said.length, named.sure);
};

/** "the weekend", "next weekend", "at the weekend", "weekend" after who says so. */
const weekend: DateRule = (tokens, at, today) => {
  const word = wordAt(tokens, at);
  const lead = /^(the|this|next|coming)$/.test(word) ? 1 : 0;
  if (wordAt(tokens, at + lead) !== 'weekend' || /^(last|over)$/.test(wordAt(tokens, at - 1))) return null;
  return found(weekdayOfWeek(today, 6, word === 'next' ? 1 : 0), lead + 1, word !== 'next');
};

const middleOfMonth = (today: Day): Day | null => {
  const middle = dayOf(today.year, today.month, 15);
  return middle === null || middle >= today ? middle : middle.plus({ months: 1 });
};
const endOfThisMonth = (today: Day): Day => endOfMonth(today.set({ day: 1 }));
const fridayOfThisWeek = (today: Day): Day => weekdayOfWeek(today, 5, 0);

type Edge = { said: readonly string[]; on: (today: Day) => Day | null; sure: boolean };
const edgeOf = (said: string, on: (today: Day) => Day | null, sure = true): Edge => ({
  said: said.split(' '),
  on,
  sure,
});

const EDGES: readonly Edge[] = [
  edgeOf('mid - month', middleOfMonth, false),
  edgeOf('mid month', middleOfMonth, false),
  edgeOf('month - end', endOfThisMonth),
  edgeOf('month end', endOfThisMonth),
  edgeOf('end of month', endOfThisMonth),
  edgeOf("month 's out", endOfThisMonth),
  edgeOf('month is out', endOfThisMonth),
  edgeOf("week 's out", fridayOfThisWeek),
  edgeOf('week is out', fridayOfThisWeek),
  edgeOf('turn of the month', endOfThisMonth),
  edgeOf('the turn of the month', endOfThisMonth),
];

/** "mid-month", "month end", "end of month", "before the month's out", "the turn of the month". */
const monthEdge: DateRule = (tokens, at, today) => {
  const edge = EDGES.find(({ said }) => standsAt(tokens, at, said));
  return edge === undefined ? null : found(edge.on(today), edge.said.length, edge.sure);
};

/** "the week after next", "the month after next", "this time next week". */
const afterNext: DateRule = (tokens, at, today) => {
  const the = wordAt(tokens, at) === 'the' ? 1 : 0;
  if (standsAt(tokens, at + the, ['week', 'after', 'next']))
    return found(weekdayOfWeek(today, 5, 2), the + 3);
  if (standsAt(tokens, at + the, ['month', 'after', 'next']))
    return found(endOfMonth(today.set({ day: 1 }).plus({ months: 2 })), the + 3, false);
  if (standsAt(tokens, at, ['this', 'time', 'next', 'week'])) return found(today.plus({ weeks: 1 }), 4);
  if (standsAt(tokens, at, ['this', 'time', 'tomorrow'])) return found(today.plus({ days: 1 }), 3);
  return null;
};

/** Days that have a name of their own, and the edges of weeks and months. */
export const feastDate: DateRule = longest([feast, weekend, monthEdge, afterNext]);
