/** The start and the end of a sentence, in the ARPA format's words. */
export const START = '<s>';
export const END = '</s>';

/** What followed a history, and how often. */
export type Following = { readonly counts: Map<string, number>; total: number };

/** Counts of n-grams by their history: n - 1 words with a space between; '' for single words. */
export type Counts = { readonly order: number; readonly byHistory: readonly Map<string, Following>[] };

/** Counts all n-grams up to `order` of sentences, each between one `<s>` and one `</s>`; `<s>` itself is never foretold. */
export function countNgrams(sentences: Iterable<readonly string[]>, order: number): Counts {
  const byHistory = Array.from({ length: order }, () => new Map<string, Following>());
  for (const sentence of sentences) {
    const words = [START, ...sentence, END];
    for (let at = 1; at < words.length; at += 1) {
      const word = words[at] ?? '';
      for (let length = 0; length < order && length <= at; length += 1)
        count(byHistory[length], words.slice(at - length, at).join(' '), word);
    }
  }
  return { order, byHistory };
}

function count(histories: Map<string, Following> | undefined, history: string, word: string): void {
  let following = histories?.get(history);
  if (!following) {
    following = { counts: new Map(), total: 0 };
    histories?.set(history, following);
  }
  following.counts.set(word, (following.counts.get(word) ?? 0) + 1);
  following.total += 1;
}
