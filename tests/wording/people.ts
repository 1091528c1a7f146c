import type { Answer, Speaker } from '../../src/wording/answer.js';
import { textOf } from '../../src/wording/answer.js';

/** Everyone of the test shop by id: names and numbers are invented (01632 960 is kept free for drama by Ofcom). */
export const NAMES: Readonly<Record<string, string>> = {
  'owner-1': 'Mrs Averill',
  'owner-2': 'Mr Tobin',
  'mechanic-1': 'Hettie Marl',
  brook: 'Cobnut Plating',
  harlow: 'Tansy Enamels',
  marsh: 'Sallow Spares',
};
const PHONES: Readonly<Record<string, string>> = { brook: '01632 960114', marsh: '01632 960142' };

export const WORDS: Readonly<Record<string, string>> = {
  t1: 'weeping at the rocker feed',
  t2: 'the funny little bracket behind the horn',
};

/** A speaker on a day, by default the day after the last one of March's first week. */
export function speakerOn(today = '2026-03-09', words: Readonly<Record<string, string>> = WORDS): Speaker {
  return {
    ...{ today, zone: 'Europe/London', currency: 'GBP' },
    name: (id) => NAMES[id] ?? 'a former contact',
    said: (id) => words[id] ?? '',
    phone: (id) => PHONES[id] ?? null,
  };
}

/** The lines of an answer, without emphasis. */
export const linesOf = (answer: Answer): string[] => textOf(answer).split('\n');

export const labelsOf = ({ buttons }: Answer): string[] => buttons.flat().map(({ label }) => label);

/** All that a person can see of an answer. */
export const seenOf = (answer: Answer): string =>
  [textOf(answer), ...labelsOf(answer), ...(answer.photos ?? []).map(({ caption }) => caption)].join('\n');

/** Ids of ours, and words of ours that nobody at a bench says. */
const OURS = [
  /\b(?:line|notice|asking|added|owner|mechanic|supplier)-\d/,
  /\b(?:brook|harlow|marsh)\b/,
  /\b(?:parts-ordered|sublet-out|send-out|stripped-thread|out-of-true|powder-coat|hard-chrome|not-asked)\b/,
  /undefined|null|NaN|\[object/,
];

/** What of our own insides shows in a text; empty where nothing does. */
export const insidesIn = (text: string): string[] => OURS.flatMap((pattern) => pattern.exec(text)?.[0] ?? []);

/** Characters of a message that the chat takes (Bot API documentation, sendMessage: 1-4096). */
export const CHAT_TAKES = 4096;
