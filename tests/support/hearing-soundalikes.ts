import { readMessage } from '../../src/hearing/read-message.js';
import { lexicon, type Part } from '../../src/trade/lexicon/load.js';

export type Soundalike = { part: string; confusable: { word: string; edits: number }[] };
export type Sentence = { said: string; heard: string; part: Part };

const TODAY = '2026-03-02';

const ORDINARY = [
  (word: string) => `we talked about ${word} for a while after dinner`,
  (word: string) => `he said ${word} twice on the phone and laughed`,
  (word: string) => `my sister wrote ${word} in her letter last week`,
  (word: string) => `i never thought the ${word} would be so popular`,
  (word: string) => `they asked me about the ${word} when we met in town`,
  (word: string) => `the ${word} was lovely so we stayed until monday`,
];

/** Ordinary sentences that hold each part word's soundalikes, several frames in turn. */
export const ordinarySentences = (list: readonly Soundalike[]): { sentence: string; word: string }[] =>
  list.flatMap(({ confusable }, index) =>
    confusable.map(({ word }, at) => ({
      word,
      sentence: ORDINARY[(index + at) % ORDINARY.length]?.(word) ?? '',
    })),
  );

const TRADE = [
  (name: string) => `the ${name} is pitted and worn get a new one`,
  (name: string) => `nearside ${name} cracked send it out to be welded`,
  (name: string) => `${name} seized and badly scored about twenty quid to replace`,
];

/** The shortest lexicon name that holds the word. */
function nameWith(word: string): { name: string; part: Part } | null {
  const found = lexicon.parts.flatMap((part) =>
    [part.name, ...part.also]
      .filter((name) => name.split(' ').includes(word))
      .map((name) => ({ name, part })),
  );
  return found.sort((a, b) => a.name.length - b.name.length)[0] ?? null;
}

/** Trade sentences with a part's word taken for the nearest word that sounds like it; parts we have alone. */
export const tradeSentences = (list: readonly Soundalike[]): Sentence[] =>
  list.flatMap(({ part: word, confusable }, index) => {
    const found = nameWith(word);
    const nearest = [...confusable].sort((a, b) => a.edits - b.edits)[0];
    const frame = TRADE[index % TRADE.length];
    if (found === null || nearest === undefined || frame === undefined) return [];
    const misheard = found.name
      .split(' ')
      .map((one) => (one === word ? nearest.word : one))
      .join(' ');
    return [{ said: frame(found.name), heard: frame(misheard), part: found.part }];
  });

const listen = (text: string) => readMessage(text, { today: TODAY, spoken: true });

/** Whether the word, rightly there, was taken for something else. */
export const wronglyRepaired = ({ sentence, word }: { sentence: string; word: string }): boolean =>
  listen(sentence).heard !== readMessage(sentence, { today: TODAY }).heard &&
  !listen(sentence).heard.split(' ').includes(word);

/** Whether the reading names the part that the same sentence names when rightly heard. */
export function putRight({ said, heard }: Sentence): boolean {
  const [wanted, got] = [listen(said), listen(heard)].map((reading) =>
    reading.items.map((item) => item.part),
  );
  return (
    wanted !== undefined &&
    got !== undefined &&
    wanted.length > 0 &&
    wanted.every((part) => got.includes(part))
  );
}
