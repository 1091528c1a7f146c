import { END, START } from './ngrams.js';
import type { NgramModel } from './witten-bell.js';

/** What stands for log 0 in the format. */
const NEVER = -99;

/**
 * A model in the ARPA format, as SRILM's ngram-format(5) describes it: log10 of each probability, the n-gram, and log10 of
 * its back-off weight where longer n-grams begin with it.
 */
export function arpaOf(model: NgramModel): string {
  const sections = model.seen.map((histories, length) => linesOf(model, histories, length));
  const sizes = sections.map((lines, length) => `ngram ${length + 1}=${lines.length}`);
  const bodies = sections.map((lines, length) => `\\${length + 1}-grams:\n${lines.join('\n')}\n`);
  return `\\data\\\n${sizes.join('\n')}\n\n${bodies.join('\n')}\n\\end\\\n`;
}

function linesOf(
  { backOff }: NgramModel,
  histories: ReadonlyMap<string, ReadonlyMap<string, number>>,
  length: number,
): string[] {
  const lines: string[] = [];
  const weights = backOff[length + 1];
  const add = (log: number, ngram: string): void => {
    const weight = ngram.endsWith(END) ? undefined : weights?.get(ngram);
    const tail = weight === undefined ? '' : `\t${rounded(Math.log10(weight))}`;
    lines.push(`${rounded(log)}\t${ngram}${tail}`);
  };
  if (length === 0) add(NEVER, START);
  for (const [history, words] of histories)
    for (const [word, probability] of words)
      add(Math.log10(probability), history === '' ? word : `${history} ${word}`);
  return lines;
}

const rounded = (log: number): string => log.toFixed(4);
