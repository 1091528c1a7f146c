import { phrases } from '../../trade/lexicon/phrases.js';
import type { Known } from '../listener.js';
import { otherSingulars } from '../text/morphology.js';
import type { Token } from '../text/tokens.js';
import { isEveryday } from '../text/ordinary-words.js';
import { wordAt as word } from '../text/word-at.js';
import { noteBeginnings } from './beginnings.js';
import type { Chunk, Meaning } from './chunk.js';
import { capitalised } from './capitalised-names.js';
import { nameIndex, namesIn, remembered, type NameIndex } from './name-index.js';
import { asSaid, isCapital, SPEAKS, verbAt } from './name-words.js';
import { isTradeWord, partOf } from './part-index.js';
import { matches, phraseKey } from './phrase-index.js';
import { firms, strangers } from './small-letter-names.js';

const NOBODY: readonly Named[] = [];

const tradeNouns = new Set(phrases.trades.flatMap((entry) => entry.nouns.map(phraseKey)));
const things = phrases.trades.flatMap((entry) => entry.things.map(phraseKey));
const persons = phrases.trades.flatMap((entry) => entry.persons.map(phraseKey));
const combined = new Set(things.flatMap((thing) => persons.map((person) => thing + person)));
noteBeginnings(tradeNouns);
noteBeginnings(combined);

function isTrade(key: string, last: Token): boolean {
  if (tradeNouns.has(key) || combined.has(key)) return true;
  const forms = otherSingulars(last.word);
  if (forms.length === 0) return false;
  const stem = key.slice(0, key.length - last.word.length);
  return forms.some((form) => tradeNouns.has(stem + form));
}

/** Words that a trade's own person is called by before it: "Gwyn the upholsterer", "terry the welder". */
const isForename = (tokens: readonly Token[], at: number): boolean => {
  const token = tokens[at];
  if (token?.kind !== 'word') return false;
  const opens = at === 0 || tokens[at - 1]?.kind === 'mark';
  if (/^\p{Lu}/u.test(token.text))
    return isCapital(token) && !SPEAKS.test(token.word) && !(opens && isEveryday(token.word));
  return (
    /^[a-z]{3,}$/.test(token.text) &&
    !isEveryday(token.word) &&
    !isTradeWord(token.word) &&
    partOf(token.word, token) === undefined
  );
};

/** A trade by its own word: "the plater", "gauge man", with its article as said, and a name before that. */
function trades(tokens: readonly Token[]): Chunk[] {
  return matches(tokens, (key, last) => (isTrade(key, last) ? true : undefined)).flatMap(({ from, to }) => {
    const verb = verbAt(tokens, to);
    const speaks = SPEAKS.test(word(tokens, verb)) || SPEAKS.test(word(tokens, verb + 1));
    const supplier = (start: number, said: number): Chunk => ({
      kind: 'supplier',
      from: start,
      to,
      supplier: asSaid(tokens, said, to),
      known: false,
      speaks,
    });
    const lead = word(tokens, from - 1);
    if (!/^(the|our|my)$/.test(lead)) return [supplier(from, from)];
    const named = lead === 'the' && isForename(tokens, from - 2) ? [supplier(from - 2, from - 2)] : [];
    // "been to the welder": the article may be part of what leads there.
    return [...named, supplier(from - 1, from - (lead === 'the' ? 1 : 0)), supplier(from, from - 1)];
  });
}

type Named = { name: string; also?: string[] | undefined };

const byName = (names: readonly Named[]): NameIndex<Named> =>
  nameIndex(
    names.flatMap((named) =>
      [named.name, ...(named.also ?? [])].map((said) => [phraseKey(said), named] as const),
    ),
  );

const known = (
  tokens: readonly Token[],
  index: NameIndex<Named>,
  make: (said: string, named: Named) => Meaning,
): Chunk[] =>
  namesIn(tokens, index).map(({ from, to, means }) => ({
    from,
    to,
    ...make(asSaid(tokens, from, to), means),
  }));

/** Known firms by the beginning of their name as well, where it is no everyday word and no other's: "Tansy" of Tansy Enamels. */
function shortened(named: readonly Named[], ordinary: (word: string) => boolean): Named[] {
  return named.map((one) => {
    const words = one.name.split(' ');
    const short = words.slice(0, -1).map((_, at) => words.slice(0, at + 1).join(' '));
    const own = short.filter(
      (name) =>
        !(name.split(' ').length === 1 && ordinary(name.toLowerCase())) &&
        !/ (&|and)$/.test(name) &&
        !named.some((other) => other !== one && other.name.startsWith(name)),
    );
    return { ...one, also: [...(one.also ?? []), ...own, ...own.map((name) => `${name}'s`)] };
  });
}

/** Known people by their last name alone as well, where it is no everyday word. */
const bySurname = (named: readonly Named[], ordinary: (word: string) => boolean): Named[] =>
  named.map((one) => {
    const last = one.name.split(' ').at(-1) ?? one.name;
    return ordinary(last.toLowerCase()) ? one : { ...one, also: [...(one.also ?? []), last] };
  });

type Ordinary = (word: string) => boolean;

/** Names with those that `widened` adds, put together once for as long as the record has the same. */
function widenedNames(
  widened: (named: readonly Named[], ordinary: Ordinary) => Named[],
): (named: readonly Named[], ordinary: Ordinary) => NameIndex<Named> {
  const made = new WeakMap<Ordinary, (named: readonly Named[]) => NameIndex<Named>>();
  return (named, ordinary) => {
    const index = made.get(ordinary) ?? remembered((list) => byName(widened(list, ordinary)));
    made.set(ordinary, index);
    return index(named);
  };
}

const supplierNames = widenedNames(shortened);
const ownerNames = widenedNames(bySurname);
const machineNames = remembered(byName);

const TITLE = new Set('mr mrs ms miss misses missus mister dr sir lady major colonel captain'.split(' '));
const OWNER = new Set('owner customer client punter boss'.split(' '));

/** "Mrs Dale", "the owner", "the customer". */
function titled(tokens: readonly Token[], ordinary: (word: string) => boolean): Chunk[] {
  return tokens.flatMap((token, at): Chunk[] => {
    if (!TITLE.has(token.word) && !OWNER.has(token.word)) return [];
    const rank =
      /^(sir|lady|major|colonel|captain|misses|missus|mister)$/.test(token.word) &&
      !isCapital(tokens[at + 1]) &&
      !(/^(misses|missus|mister)$/.test(token.word) && !ordinary(word(tokens, at + 1)));
    if (TITLE.has(token.word) && !rank && tokens[at + 1] !== undefined) {
      const dot = word(tokens, at + 1) === '.' ? 1 : 0;
      const name = tokens[at + 1 + dot];
      if (name?.kind !== 'word') return [];
      return [{ kind: 'owner', from: at, to: at + 2 + dot, owner: asSaid(tokens, at, at + 2 + dot) }];
    }
    const boss =
      token.word === 'boss' &&
      (!/^(the|our|my|gaffer)$/.test(word(tokens, at - 1)) ||
        /^(at|on|near|round|around|by|in|through|off|of|under)$/.test(word(tokens, at - 2)));
    if (OWNER.has(token.word) && !boss) {
      const article = /^(the|our|his|her)$/.test(word(tokens, at - 1)) ? 1 : 0;
      return [{ kind: 'owner', from: at - article, to: at + 1, owner: asSaid(tokens, at - article, at + 1) }];
    }
    return [];
  });
}

/** Suppliers, owners and machines: those that the record knows, then those that their place in the sentence shows. */
export function names(
  tokens: readonly Token[],
  knownNames: Known | undefined,
  ordinary: (word: string) => boolean,
): Chunk[] {
  const suppliers = known(tokens, supplierNames(knownNames?.suppliers ?? NOBODY, ordinary), (said) => ({
    kind: 'supplier',
    supplier: said,
    known: true,
    speaks: false,
  })).map((chunk) =>
    chunk.kind === 'supplier' ? { ...chunk, speaks: SPEAKS.test(word(tokens, chunk.to)) } : chunk,
  );
  const machines = known(tokens, machineNames(knownNames?.machines ?? NOBODY), (said, named) => ({
    kind: 'machine',
    machine: said.toLowerCase() === said ? named.name : said,
  }));
  const owners = known(tokens, ownerNames(knownNames?.owners ?? NOBODY, ordinary), (said) => ({
    kind: 'owner',
    owner: said,
  }));
  const held = (chunk: Chunk): Chunk =>
    chunk.kind === 'supplier' && /^(at|with)$/.test(word(tokens, chunk.from - 1))
      ? { ...chunk, held: true }
      : chunk;
  return [
    ...suppliers,
    ...machines,
    ...owners,
    ...titled(tokens, ordinary),
    ...trades(tokens),
    ...firms(tokens),
    ...capitalised(tokens, ordinary),
    ...strangers(tokens, ordinary),
  ].map(held);
}
