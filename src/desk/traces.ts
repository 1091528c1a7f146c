import { isEveryday, isListed } from '../hearing/text/ordinary-words.js';
import type { Person as Contact } from '../record/types.js';
import { processesOf } from '../trade/processes.js';
import { FORGOTTEN_NAME, FORGOTTEN_NUMBER } from '../wording/terms.js';
import { phonePattern } from './phone-pattern.js';

/** What gives somebody away where others wrote it. */
export type Traces = {
  /** Whole names, whatever their case. */
  names: string[];
  /** A surname or a firm's own word by itself: 'Dale' of 'Mrs Dale', 'Harrow' of 'Harrow Plating'. */
  halves: string[];
  /** Telephone numbers, by their digits, and other ways to reach them. */
  numbers: string[];
};

const TITLES = new Set(['mr', 'mrs', 'ms', 'miss', 'mx', 'dr', 'prof', 'sir', 'lady', 'the', 'and']);

/** The traces of somebody; a name, or half of one, that one of the others has too is not theirs alone. */
export function tracesOf(contact: Contact, others: readonly Contact[]): Traces {
  const { phone, email, address } = contact;
  const borne = new Set(others.flatMap(calledBy).map(lower));
  const shared = new Set(others.flatMap(calledBy).flatMap(wordsOf).map(lower));
  // 'The plater' is anybody's; a name of one's own is written with a capital.
  const own = calledBy(contact).filter((each, at) => at === 0 || /\p{Lu}/u.test(each));
  const halves = own.flatMap(halvesOf).filter((word) => !shared.has(lower(word)));
  const numbers = [phone, email, address].filter((each) => each !== undefined && each.trim().length > 5);
  return {
    names: own.filter((each) => !borne.has(lower(each))),
    halves: [...new Set(halves)],
    numbers: numbers as string[],
  };
}

const lower = (word: string): string => word.toLowerCase();

const calledBy = ({ name, also = [] }: Contact): string[] => [name, ...also];

const wordsOf = (name: string): string[] => name.split(/[^\p{L}\p{N}'’]+/u).filter((word) => word !== '');

/** Words of a name that are nobody else's: the only one besides titles, and any that no dictionary has. */
function halvesOf(name: string): string[] {
  const words = wordsOf(name).filter((word) => word.length > 2 && !TITLES.has(lower(word)));
  const own = words.filter((word) => /^\p{Lu}/u.test(word));
  return words.length === 1 ? own : own.filter((word) => !isCommon(lower(word)));
}

const isCommon = (word: string): boolean => isListed(word) || processesOf(word).length > 0;

/** Words without the traces; half a name that is a word besides, such as 'Dale', is one only as a name is written. */
export function withoutTraces(words: string, { names, halves, numbers }: Traces): string {
  const named = [...names.map(inAnyCase), ...halves.map((half) => halfPattern(half, isListed))];
  const unnamed = named.reduce((text, pattern) => text.replace(pattern, FORGOTTEN_NAME), words);
  return numbers.reduce((text, number) => text.replace(numberPattern(number), FORGOTTEN_NUMBER), unnamed);
}

/**
 * Whether words mention them, for what is kept for a while only: there half a name counts in any case, as a recogniser
 * writes it, save where it is an everyday word.
 */
export function mentionsIn({ names, halves, numbers }: Traces): (words: string) => boolean {
  const patterns = [
    ...names.map(inAnyCase),
    ...halves.map((half) => halfPattern(half, isEveryday)),
    ...numbers.map(numberPattern),
  ];
  return (words) => patterns.some((pattern) => words.search(pattern) >= 0);
}

const literal = (text: string): string =>
  text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/['’]/g, "['’]");

/** A name by itself, not within a longer word. */
const asWord = (name: string, flags: string): RegExp =>
  new RegExp(`(?<![\\p{L}\\p{N}])(?:${name})(?![\\p{L}\\p{N}])`, flags);

const inAnyCase = (name: string): RegExp => asWord(literal(name), 'giu');

const halfPattern = (half: string, isWordBesides: (word: string) => boolean): RegExp =>
  isWordBesides(lower(half))
    ? asWord([half, half.toUpperCase()].map(literal).join('|'), 'gu')
    : inAnyCase(half);

const numberPattern = (number: string): RegExp => phonePattern(number) ?? new RegExp(literal(number), 'giu');
