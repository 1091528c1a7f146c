import type { Token } from '../text/tokens.js';
import { standsAt, wordAt } from '../text/word-at.js';

/** What is said of the hour before a day ("close of play Thursday") and after it ("Thursday morning at the latest"). */
const LEADS: readonly (readonly string[])[] = [
  'close of play',
  'end of play',
  'the end of play',
  'close of business',
  'end of the day',
  'end of day',
  'first thing',
  'last thing',
  'some time',
  'sometime',
  'the morning of',
  'the afternoon of',
].map((said) => said.split(' '));

const TAILS: readonly (readonly string[])[] = [
  'morning',
  'afternoon',
  'aft',
  'evening',
  'night',
  'lunchtime',
  'dinnertime',
  'teatime',
  'am',
  'pm',
  'a . m .',
  'p . m .',
  'first thing',
  'last thing',
  'at the latest',
  'at the very latest',
  'latest',
  'at the earliest',
  'earliest',
  'at the outside',
  'at the soonest',
  'at best',
  'close of play',
  'end of play',
  'at close of play',
].map((said) => said.split(' '));

/** The token where such words before a day begin; `from` itself where there are none. */
export function leadFrom(tokens: readonly Token[], from: number): number {
  const on = /^(on|in|of)$/.test(wordAt(tokens, from - 1)) ? 1 : 0;
  const led = LEADS.find((words) => standsAt(tokens, from - on - words.length, words));
  return led === undefined ? from : from - on - led.length;
}

/** The token past the last of such words after a day. */
export function tailTo(tokens: readonly Token[], to: number): number {
  let end = to;
  for (let more = true; more;) {
    const article = standsAt(tokens, end, ['in', 'the']) ? 2 : 0;
    const tail = TAILS.find((words) => standsAt(tokens, end + article, words));
    more = tail !== undefined;
    end += tail === undefined ? 0 : article + tail.length;
  }
  return end;
}
