import { lexicon } from '../../trade/lexicon/load.js';
import { phrases } from '../../trade/lexicon/phrases.js';
import { commonestWords } from '../text/ordinary-words.js';
import { arpaOf } from './arpa.js';
import { makeSentences } from './grammar.js';
import { countNgrams, END } from './ngrams.js';
import { patterns } from './patterns.js';
import { asSpoken, phraseLists } from './phrase-lists.js';
import { waysToSay } from './pronounce.js';
import type { ShopWords } from './shop-words.js';
import { smoothWittenBell } from './witten-bell.js';

/** What a recogniser needs to listen to one shop, as the text of its files. */
export type SpeechModel = {
  /** A trigram model in the ARPA format. */
  readonly languageModel: string;
  /** A pronouncing dictionary in the CMU dictionary's format: every word of the model, one line for each way to say it. */
  readonly dictionary: string;
};

/** Found best on typed messages of the corpora, spoken by flite: other ones than tests/bench/speech.ts measures by. */
const SENTENCES = 30_000;
const TRUST = 0.1;
const ORDER = 3;

/** Known though no pattern has them: a word that isn't known is heard as others, and spoils its neighbours. */
const ORDINARY = [...commonestWords].filter((word) => word.length > 1 && asSpoken(word) === word);

/** The model of a shop's talk, made from the lexicon, the sentence patterns and the shop's own words. The same words make the same model. */
export function makeSpeechModel(
  shop: ShopWords,
  options: { sentences?: number; trust?: number; order?: number } = {},
): SpeechModel {
  const lists = phraseLists(lexicon.parts, phrases, shop);
  const sentences = makeSentences(patterns, lists, 'message', options.sentences ?? SENTENCES);
  const model = smoothWittenBell(countNgrams(sentences, options.order ?? ORDER), {
    extra: [...everyWord(lists), ...ORDINARY],
    trust: options.trust ?? TRUST,
  });
  const words = [...model.vocabulary].filter((word) => word !== END).sort();
  return { languageModel: arpaOf(model), dictionary: `${words.flatMap(linesFor).join('\n')}\n` };
}

const everyWord = (lists: ReturnType<typeof phraseLists>): string[] =>
  Object.values(lists).flatMap((list) =>
    list.flatMap((phrase) => phrase.split(' ')).filter((word) => !word.startsWith("'")),
  );

/** The second way to say a word is marked (2), and so on, as in the CMU dictionary. */
const linesFor = (word: string): string[] =>
  waysToSay(word).map((way, index) => `${word}${index === 0 ? '' : `(${index + 1})`} ${way.join(' ')}`);
