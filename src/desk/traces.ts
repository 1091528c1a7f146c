import { isListed } from '../hearing/text/ordinary-words.js';
import type { Person as Contact } from '../record/types.js';
import { processesOf } from '../trade/processes.js';
import { FORGOTTEN_NAME, FORGOTTEN_NUMBER } from '../wording/terms.js';

/** What gives somebody away where others wrote it. */
export type Traces = {
  /** Whole names, whatever their case. */
  names: string[];
  /** A surname or a firm's own word by itself: 'Dale' of 'Mrs Dale', 'Harrow' of 'Harrow Plating'; as a name is written. */
  halves: string[];
  /** Telephone numbers, by their digits, and other ways to reach them. */
  numbers: string[];
};

const TITLES = new Set(['mr', 'mrs', 'ms', 'miss', 'mx', 'dr', 'prof', 'sir', 'lady', 'the', 'and']);

/** The traces of somebody; a half name that one of the others has too is not theirs alone. */
export function tracesOf(contact: Contact, others: readonly Contact[]): Traces {
  const { name, also = [], phone, email, address } = contact;
  // 'The plater' is anybody's; a name of one's own is written with a capital.
  const names = [name, ...also.filter((each) => /\p{Lu}/u.test(each))];
  const shared = new Set(others.flatMap((each) => wordsOf(each.name).map((word) => word.toLowerCase())));
  const halves = names.flatMap(halvesOf).filter((word) => !shared.has(word.toLowerCase()));
  const numbers = [phone, email, address].filter((each) => each !== undefined && each.trim().length > 5);
  return { names, halves: [...new Set(halves)], numbers: numbers as string[] };
}

const wordsOf = (name: string): string[] => name.split(/[^\p{L}\p{N}'’]+/u).filter((word) => word !== '');

/** Words of a name that are nobody else's: the only one besides titles, and any that no dictionary has. */
function halvesOf(name: string): string[] {
  const words = wordsOf(name).filter((word) => word.length > 2 && !TITLES.has(word.toLowerCase()));
  const own = words.filter((word) => /^\p{Lu}/u.test(word));
  return words.length === 1 ? own : own.filter((word) => !isCommon(word.toLowerCase()));
}

const isCommon = (word: string): boolean => isListed(word) || processesOf(word).length > 0;

/** What passing things are searched for: an everyday word by itself names nobody. */
export const soughtOf = ({ names, halves, numbers }: Traces): string[] => [
  ...names,
  ...halves.filter((half) => !isListed(half.toLowerCase())),
  ...numbers,
];

/** Words without the traces. */
export function withoutTraces(words: string, { names, halves, numbers }: Traces): string {
  const unnamed = names.reduce((text, name) => text.replace(asWord(name, 'giu'), FORGOTTEN_NAME), words);
  const unspoken = halves
    .flatMap((half) => [half, half.toUpperCase()])
    .reduce((text, half) => text.replace(asWord(half, 'gu'), FORGOTTEN_NAME), unnamed);
  return numbers.reduce((text, number) => text.replace(asNumber(number), FORGOTTEN_NUMBER), unspoken);
}

const literal = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** A name by itself, not within a longer word. */
const asWord = (name: string, flags: string): RegExp =>
  new RegExp(`(?<![\\p{L}\\p{N}])${literal(name)}(?![\\p{L}\\p{N}])`, flags);

/** A telephone number however it is spaced; anything else as it is. */
function asNumber(number: string): RegExp {
  const digits = number.replace(/\D/g, '');
  const isPhone = digits.length >= 6 && !/\p{L}/u.test(number);
  return isPhone
    ? new RegExp(`(?<!\\d)${[...digits].join('[\\s()./-]*')}(?!\\d)`, 'g')
    : new RegExp(literal(number), 'giu');
}
