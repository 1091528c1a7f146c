import type { Counts } from './ngrams.js';

/** A smoothed model: probabilities of the n-grams seen, and for each history the weight of what was not seen after it. */
export type NgramModel = {
  readonly order: number;
  readonly vocabulary: ReadonlySet<string>;
  /** By length of history, then history, then word. */
  readonly seen: readonly ReadonlyMap<string, ReadonlyMap<string, number>>[];
  readonly backOff: readonly ReadonlyMap<string, number>[];
};

export type Smoothing = {
  /** Words that are known though no sentence has them. */
  readonly extra?: Iterable<string>;
  /** What an n-gram counts for: sentences made by rule are worth less than sentences said. (Default: 1) */
  readonly trust?: number;
  /** How often an n-gram of the longest kind must be there to be kept. (Default: 1) */
  readonly atLeast?: number;
};

/**
 * Interpolated Witten-Bell smoothing (Bell, Cleary and Witten 1990; Chen and Goodman 1998, section 2.4):
 * P(w|h) = (n(hw) + T(h) P(w|h')) / (N(h) + T(h)), T(h) being how many different words followed h; single words with 1 / V.
 * What is pruned goes to the back-off weight, which makes each history's probabilities sum to one.
 */
export function smoothWittenBell(
  { order, byHistory }: Counts,
  { extra = [], trust = 1, atLeast = 1 }: Smoothing = {},
): NgramModel {
  const vocabulary = new Set([...extra, ...(byHistory[0]?.get('')?.counts.keys() ?? [])]);
  const seen: Map<string, Map<string, number>>[] = [];
  const backOff: Map<string, number>[] = [];
  const model: NgramModel = { order, vocabulary, seen, backOff };
  byHistory.forEach((histories, length) => {
    const floor = length > 0 && length === order - 1 ? atLeast : 1;
    const probabilities = new Map<string, Map<string, number>>();
    const weights = new Map<string, number>();
    for (const [history, { counts, total }] of histories) {
      const shorter = shorterOf(history);
      const kinds = counts.size;
      const words = new Map<string, number>();
      let told = 0;
      let toldShorter = 0;
      for (const word of length === 0 ? vocabulary : counts.keys()) {
        const count = counts.get(word) ?? 0;
        if (length > 0 && count < floor) continue;
        const lower = length === 0 ? 1 / vocabulary.size : probability(model, shorter, word, length - 1);
        const smoothed = (trust * count + kinds * lower) / (trust * total + kinds);
        words.set(word, smoothed);
        told += smoothed;
        toldShorter += lower;
      }
      if (words.size === 0) continue;
      probabilities.set(history, words);
      weights.set(history, (1 - told) / (1 - toldShorter));
    }
    seen.push(probabilities);
    backOff.push(weights);
  });
  return model;
}

/** P(word | history), the history being `length` words with a space between (all that it has unless told). */
export function probability(
  model: NgramModel,
  history: string,
  word: string,
  length = lengthOf(history),
): number {
  if (length >= model.order) return probability(model, shorterOf(history), word, length - 1);
  const direct = model.seen[length]?.get(history)?.get(word);
  if (direct !== undefined || length === 0) return direct ?? 0;
  return (
    (model.backOff[length]?.get(history) ?? 1) * probability(model, shorterOf(history), word, length - 1)
  );
}

const lengthOf = (history: string): number => (history === '' ? 0 : history.split(' ').length);

function shorterOf(history: string): string {
  const space = history.indexOf(' ');
  return space < 0 ? '' : history.slice(space + 1);
}
