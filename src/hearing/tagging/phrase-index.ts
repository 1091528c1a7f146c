import { expand, phrases, type Phrases } from '../../trade/lexicon/phrases.js';
import { verbForms } from '../text/morphology.js';
import { figures } from '../text/number-words.js';
import { tokenise, type Token } from '../text/tokens.js';
import { mayBegin, NO_LETTERS, noteBeginnings, withLetters } from './beginnings.js';
import type { Meaning } from './chunk.js';

/** Words of the longest saying that the data may have. */
const LONGEST = 8;

export type PhraseIndex = ReadonlyMap<string, Meaning[]>;

/** Words run together, so that "chain case", "chain-case" and "chaincase" are one. */
export const keyOf = (tokens: readonly Token[]): string => tokens.map((token) => token.word).join('');

/** The key of a phrase as the data has it, read as a message would be. */
export const phraseKey = (phrase: string): string => keyOf(figures(tokenise(phrase)));

type Saying = { said: string[]; nouns: string[]; verbs: string[] };

function wordings(saying: Saying): string[] {
  return [
    ...saying.said.flatMap(expand),
    ...saying.nouns.flatMap((noun) => [noun, /(s|x|ch|sh)$/.test(noun) ? `${noun}es` : `${noun}s`]),
    ...saying.verbs.flatMap(verbForms),
  ];
}

/** What was done is told in the past: of an act's verbs "fitted" alone counts, of "fit" only what decides. */
function actWordings(saying: Saying): string[] {
  const past = saying.verbs.map((verb) => verbForms(verb)[2] ?? verb);
  return [...saying.said.flatMap(expand), ...past];
}

function build(): PhraseIndex {
  const index = new Map<string, Meaning[]>();
  const add = (said: string[], meaning: Meaning): void => {
    for (const one of said) {
      const key = phraseKey(one);
      const there = index.get(key) ?? [];
      const same = there.find((other) => other.kind === meaning.kind);
      if (same === undefined) index.set(key, [...there, meaning]);
      else if (
        same.kind === 'act' &&
        meaning.kind === 'act' &&
        same.act === meaning.act &&
        same.outcome === null
      )
        index.set(key, [...there.filter((other) => other !== same), meaning]);
    }
  };
  const { conditions, remedies, processes, acts, places }: Phrases = phrases;
  for (const entry of phrases['set-phrases']) add(wordings(entry), { kind: 'aside' });
  for (const entry of acts)
    add(actWordings(entry), { kind: 'act', act: entry.means, outcome: entry.outcome ?? null });
  for (const entry of remedies) add(wordings(entry), { kind: 'remedy', remedy: entry.means });
  for (const entry of processes)
    add(wordings(entry), { kind: 'process', process: entry.means, doer: entry.trade });
  for (const entry of conditions) add(wordings(entry), { kind: 'condition', condition: entry.means });
  for (const entry of places) add(wordings(entry), { kind: 'place', place: entry.means });
  return index;
}

/** Conditions, remedies, processes, acts, places and set phrases by what is said. */
export const phraseIndex: PhraseIndex = build();
noteBeginnings(phraseIndex.keys());

export type Match<T> = { from: number; to: number; means: T };

const POINTS = new Set(['that', 'those', 'these', 'this', 'both']);
const FOR_US = new Set(['me', 'us', 'him', 'her']);

type Run = { from: number; to: number; key: string; last: Token };
const runs = new WeakMap<readonly Token[], readonly Run[]>();

/**
 * The runs of tokens that an index may have, with their words joined: a message is looked up in many. Marks end a run, and
 * so do letters that no phrase of any index begins with, as they stand and as `plainly` has them: the last word alone may be in
 * a form that the index hasn't.
 */
function runsOf(tokens: readonly Token[]): readonly Run[] {
  const known = runs.get(tokens);
  if (known !== undefined) return known;
  const out: Run[] = [];
  for (let from = 0; from < tokens.length; from += 1) {
    let key = '';
    let hash = NO_LETTERS;
    let plain = NO_LETTERS;
    for (let to = from; to < Math.min(tokens.length, from + LONGEST); to += 1) {
      const last = tokens[to];
      if (last === undefined || last.kind === 'mark') break;
      key += last.word;
      out.push({ from, to: to + 1, key, last });
      hash = withLetters(hash, last.word);
      if (to === from) plain = hash;
      else if (POINTS.has(last.word)) plain = withLetters(plain, 'it');
      else if (!FOR_US.has(last.word)) plain = withLetters(plain, last.word);
      if (!mayBegin(hash) && !mayBegin(plain)) break;
    }
  }
  runs.set(tokens, out);
  return out;
}

/** Every run of tokens whose joined words stand in an index, the beginnings of whose phrases were noted. */
export function matches<T>(
  tokens: readonly Token[],
  look: (key: string, last: Token) => T | undefined,
): Match<T>[] {
  const out: Match<T>[] = [];
  for (const { from, to, key, last } of runsOf(tokens)) {
    const means = look(key, last);
    if (means !== undefined) out.push({ from, to, means });
  }
  return out;
}

/** The run with its object said as "it", and without whom it is for: "knock that straight", "find me another"; null where it has neither. */
function plainly(tokens: readonly Token[], { from, to }: Run): string | null {
  let key = '';
  let changed = false;
  for (let at = from; at < to; at += 1) {
    const word = tokens[at]?.word ?? '';
    const inside = at > from && at < to - 1;
    if (inside && POINTS.has(word)) key += 'it';
    else if (!inside || !FOR_US.has(word)) key += word;
    changed ||= inside && (POINTS.has(word) || FOR_US.has(word));
  }
  return changed ? key : null;
}

/** What a message says, phrase by phrase: a phrase with "it" in it stands for the same with "that" or "those". */
export function sayings(tokens: readonly Token[]): Match<readonly Meaning[]>[] {
  const out: Match<readonly Meaning[]>[] = [];
  const objects = tokens.flatMap(({ word }, at) => (POINTS.has(word) || FOR_US.has(word) ? [at] : []));
  for (const run of runsOf(tokens)) {
    const direct = phraseIndex.get(run.key);
    const said = direct === undefined && objects.some((at) => at > run.from && at < run.to - 1);
    const key = said ? plainly(tokens, run) : null;
    const means = direct ?? (key === null ? undefined : phraseIndex.get(key));
    if (means !== undefined) out.push({ from: run.from, to: run.to, means });
  }
  return out;
}
