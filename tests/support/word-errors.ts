import { distance } from 'fastest-levenshtein';

/** A sentence's words as they sound: no capitals, signs or hyphens. */
export function spokenWords(text: string): string[] {
  const plain = text
    .toLowerCase()
    .replace(/’/g, "'")
    .replace(/[^a-z0-9' ]+/g, ' ')
    .trim();
  return plain === '' ? [] : plain.split(/\s+/);
}

/**
 * How many words must be put in, taken out or replaced to make what was heard into what was said (Levenshtein's distance over words).
 * A compound written as two words is no error: "main shaft", "mainshaft".
 */
export function wordErrors(said: readonly string[], heard: readonly string[]): number {
  const symbols = new Map<string, string>();
  const asLetters = (words: readonly string[]): string =>
    words.map((word) => symbolFor(symbols, word)).join('');
  return distance(asLetters(said), asLetters(asWritten(heard, said)));
}

/** Each word as one letter of its own, from the Private Use Area (U+E000 to U+F8FF), so that letters can be counted for words. */
function symbolFor(symbols: Map<string, string>, word: string): string {
  const known = symbols.get(word);
  if (known !== undefined) return known;
  const made = String.fromCharCode(0xe000 + symbols.size);
  symbols.set(word, made);
  return made;
}

/** Heard words with their compounds cut or joined as `said` has them. */
function asWritten(heard: readonly string[], said: readonly string[]): string[] {
  const words = new Set(said);
  const pairs = new Map(said.slice(1).map((word, at) => [`${said[at]}${word}`, [said[at] ?? '', word]]));
  const out: string[] = [];
  for (let at = 0; at < heard.length; at += 1) {
    const [word = '', next = ''] = [heard[at], heard[at + 1]];
    const joined = word + next;
    if (next !== '' && words.has(joined)) {
      out.push(joined);
      at += 1;
    } else out.push(...(words.has(word) ? [word] : (pairs.get(word) ?? [word])));
  }
  return out;
}
