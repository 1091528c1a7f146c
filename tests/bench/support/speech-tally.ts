import type { Known } from '../../../src/hearing/listener.js';
import { readMessage } from '../../../src/hearing/read-message.js';
import { f1, score, type Gold } from '../../../src/hearing/score.js';
import type { Heard } from '../../../src/desk/heard.js';
import { spokenWords, wordErrors } from '../../support/word-errors.js';
import { median } from './figures.js';

type Said = { readonly gold: Gold; readonly heard: Heard | null };

/** What a recogniser made of sentences: its word errors, its times and what it heard. */
export type Tally = { errors: number; words: number; seconds: number[]; cpuSeconds: number[]; said: Said[] };

export const emptyTally = (): Tally => ({ errors: 0, words: 0, seconds: [], cpuSeconds: [], said: [] });

export function addTo(
  tally: Tally,
  gold: Gold,
  heard: Heard | null,
  took: { seconds: number; cpuSeconds: number },
): void {
  const words = spokenWords(gold.text);
  tally.errors += wordErrors(words, spokenWords(heard?.text ?? ''));
  tally.words += words.length;
  tally.seconds.push(took.seconds);
  tally.cpuSeconds.push(took.cpuSeconds);
  // Each gold is taken with the words heard for it: the same sentence comes once a voice.
  tally.said.push({ gold: { ...gold }, heard });
}

/** Word error rate, micro-F1 of the readings made from what was heard, and seconds a note, in columns. */
export function columnsOf(tally: Tally, known: Known): { wer: string; f1: string; times: string } {
  const heard = new Map(tally.said.map((one) => [one.gold, one.heard]));
  const golds = tally.said.map(({ gold }) => gold);
  const { total } = score(golds, (gold) => {
    const { text = '', doubts = [] } = heard.get(gold) ?? {};
    return readMessage(text, { today: gold.today, spoken: true, known, doubts });
  });
  return {
    wer: `${((100 * tally.errors) / tally.words).toFixed(1)} %`,
    f1: f1(total).toFixed(3),
    times: `${median(tally.seconds).toFixed(2)} s, ${Math.max(...tally.seconds).toFixed(2)} s, ${median(tally.cpuSeconds).toFixed(2)} s`,
  };
}
