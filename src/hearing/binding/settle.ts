import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';

/** One step that settles words with two senses by their company. */
export type Settle = (chunks: readonly Chunk[], tokens: readonly Token[]) => Chunk[];

/** A step that settles a sense, and the words of which a message must have one before there is anything to settle. */
export type Step = { settle: Settle; on: readonly string[] | 'any words' };

export const step = (settle: Settle, words?: string): Step => ({
  settle,
  on: words === undefined ? 'any words' : words.split(' '),
});

/** All steps in their order, but for those that have nothing to turn on in the message. */
export function settledBy(steps: readonly Step[]): Settle {
  const turnOn = new Map<string, number[]>();
  steps.forEach(({ on }, at) => {
    if (on !== 'any words') for (const word of on) turnOn.set(word, [...(turnOn.get(word) ?? []), at]);
  });
  return (chunks, tokens) => {
    const turned = new Set(tokens.flatMap(({ word }) => turnOn.get(word) ?? []));
    return steps.reduce<Chunk[]>(
      (settled, { settle, on }, at) =>
        on === 'any words' || turned.has(at) ? settle(settled, tokens) : settled,
      [...chunks],
    );
  };
}
