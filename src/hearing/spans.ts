import { settleSenses } from './binding/senses.js';
import { contextNouns } from './binding/compounds.js';
import { tag } from './tagging/tag.js';
import { unknownThings } from './tagging/unknown-things.js';
import { isOrdinary } from './text/ordinary-words.js';
import { tokenise, type Token } from './text/tokens.js';

export type TextSpan = { from: number; to: number };

/** Where the words stand in the text: offsets of each token. */
function offsets(tokens: readonly Token[]): TextSpan[] {
  let at = 0;
  return tokens.map((token) => {
    const from = at + token.before.length;
    at = from + token.text.length;
    return { from, to: at };
  });
}

/**
 * The things and the states that a text names, as character offsets: what the reader sees before it binds one to the
 * other. For judging it against texts marked by others.
 */
export function thingSpans(text: string): { things: TextSpan[]; states: TextSpan[] } {
  const tokens = tokenise(text);
  const places = offsets(tokens);
  const tagged = tag(tokens, { today: '2026-03-02' }, isOrdinary);
  const chunks = settleSenses(unknownThings(contextNouns(tagged, tokens), tokens), tokens);
  const span = (from: number, to: number): TextSpan => ({
    from: places[from]?.from ?? 0,
    to: places[to - 1]?.to ?? 0,
  });
  const of = (kinds: RegExp): TextSpan[] =>
    chunks.filter((chunk) => kinds.test(chunk.kind)).map((chunk) => span(chunk.from, chunk.to));
  return { things: of(/^(part)$/), states: of(/^(condition|denial)$/) };
}
