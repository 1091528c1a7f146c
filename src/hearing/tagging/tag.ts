import { sums } from '../amounts/money.js';
import { measures } from '../amounts/measures.js';
import { isNominal } from '../amounts/nominal.js';
import { dueDates } from '../dates/due-dates.js';
import type { Listener } from '../listener.js';
import type { Token } from '../text/tokens.js';
import { phrases } from '../../trade/lexicon/phrases.js';
import { noteBeginnings } from './beginnings.js';
import { chooseChunks } from './choose.js';
import type { Chunk, PartMeaning } from './chunk.js';
import { counts } from './counts.js';
import { likenesses } from './likenesses.js';
import { itemNumbers } from './item-numbers.js';
import { nameIndex, namesIn, remembered } from './name-index.js';
import { names } from './names.js';
import { partOf, unknownPart } from './part-index.js';
import { matches, phraseKey, sayings } from './phrase-index.js';
import { smallWords } from './small-words.js';
import { storedPlaces } from './stored.js';

const BY = /^(by|before|until|till|for|due|ready)$/;

/** "bent a sixteenth", "22 thou on the top ring, 19 on the second": a share, or one of several, no day of the month. */
function isPortion(tokens: readonly Token[], from: number, to: number): boolean {
  const the = tokens[from]?.word === 'the' ? 1 : 0;
  if (
    to !== from + the + 1 ||
    (tokens[from + the]?.kind !== 'number' &&
      !/^(first|second|third|fourth)$/.test(tokens[from + the]?.word ?? ''))
  )
    return false;
  const before = tokens[from - 1]?.word ?? '';
  if (the === 0 && /^(a|an)$/.test(before)) return true;
  const on =
    before === 'on' || (before === 'the' && tokens[from - 2]?.word === 'on') ? (before === 'on' ? 2 : 3) : 0;
  return (
    on > 0 &&
    /^(thou|mm|in|inch|inches|psi|volts?|v)$/.test(tokens[from - on]?.word ?? '') &&
    !/^\d/.test(tokens[from + the]?.text ?? '')
  );
}

function dated(tokens: readonly Token[], today: string): Chunk[] {
  const gear = /^(gear|gears|pinion|speed|cog)$/;
  const found = dueDates(tokens, today).filter(
    ({ from, to }) => !(to === from + 1 && gear.test(tokens[to]?.word ?? '')) && !isPortion(tokens, from, to),
  );
  return found.map(({ from, to, date, sure }) => ({
    kind: 'date',
    from,
    to,
    date,
    sure,
    by: BY.test(tokens[from - 1]?.word ?? ''),
  }));
}

const particles = new Map(
  phrases.acts.flatMap((entry) => entry.particles.map((said) => [phraseKey(said), entry] as const)),
);
noteBeginnings(particles.keys());
const COPULA = /^(is|are|'s|'re|was|were|been|now)$/;
const ENDS = /^(and|now|but|again|too|today|so|then|plus|&|already|at|,|with|safe|ok)$/;

/** "it's off", "the bearings are in": a particle alone after "is" tells what was done. */
function particleActs(tokens: readonly Token[]): Chunk[] {
  return matches(tokens, (key) => particles.get(key)).flatMap(({ from, to, means }): Chunk[] => {
    const next = tokens[to];
    const closed = next === undefined || next.kind === 'mark' || ENDS.test(next.word);
    if (!closed || !COPULA.test(tokens[from - 1]?.word ?? '')) return [];
    return [{ kind: 'act', from: from - 1, to, act: means.means, outcome: means.outcome ?? null }];
  });
}

const learntParts = remembered((words: readonly { said: string; part: string }[]) => {
  const named = (ending: string) =>
    words.map(({ said, part }) => [phraseKey(said) + ending, { part, plural: ending !== '' }] as const);
  return nameIndex([...named('s'), ...named('')]);
});

function learntWords(tokens: readonly Token[], listener: Listener): Chunk[] {
  const learnt = namesIn(tokens, learntParts(listener.known?.words ?? []));
  return learnt.map(({ from, to, means }) => ({
    from,
    to,
    ...unknownPart(means.part, means.plural, true),
  }));
}

/** "sweet as a nut". */
const likened = (tokens: readonly Token[], part: Chunk): boolean =>
  /^(as|like)$/.test(tokens[part.from - 2]?.word ?? '');

/** A part named inside the words of its work ("the tank lined", "rebuild the wheel") is spoken of as well. */
function withNested(chunks: readonly Chunk[], parts: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const named = chunks.some((chunk) => chunk.kind === 'part');
  return chunks.flatMap((chunk) => {
    if (named || !/^(process|act)$/.test(chunk.kind) || chunk.to - chunk.from < 2) return [chunk];
    const inner = parts
      .filter((part) => part.from >= chunk.from && part.to <= chunk.to && !likened(tokens, part))
      .sort((a, b) => b.to - b.from - (a.to - a.from))[0];
    return inner === undefined ? [chunk] : [inner, chunk];
  });
}

/** What follows a "right" that only opens the message: "right that's the clutch stripped". */
const OPENED =
  /^(that|so|then|i|we|well|now|just|took|got|had|been|started|first|next|today|this|here|he|she|they|on|the)$/;

/** What words may mean, names aside: chunks that go before names and after them. */
type Proposed = { listener: Listener; parts: Chunk[]; before: Chunk[]; after: Chunk[] };

const proposed = new WeakMap<readonly Token[], Proposed>();

/** Proposed once for the same words and listener: what is spoken is looked at before and after repair. */
function proposedFor(tokens: readonly Token[], listener: Listener): Proposed {
  const known = proposed.get(tokens);
  if (known?.listener === listener) return known;
  const parts = matches<PartMeaning>(tokens, partOf).map(({ from, to, means }): Chunk => ({
    ...means,
    from,
    to,
    sure: !tokens.slice(from, to).some((token) => token.repaired === true),
  }));
  const said = sayings(tokens).flatMap(({ from, to, means }) =>
    means.map((meaning): Chunk => ({ ...meaning, from, to })),
  );
  const right = tokens[0]?.word === 'right';
  const opening: Chunk[] =
    right && tokens[1]?.text === ','
      ? [{ kind: 'aside', from: 0, to: 2 }]
      : right && OPENED.test(tokens[1]?.word ?? '')
        ? [{ kind: 'aside', from: 0, to: 1 }]
        : [];
  const before = [
    ...opening,
    ...learntWords(tokens, listener),
    ...dated(tokens, listener.today),
    ...sums(tokens).map((sum): Chunk => ({ kind: 'money', ...sum })),
    ...measures(tokens).map(({ from, to, value, unit, quantity }): Chunk =>
      isNominal(tokens, { from, to })
        ? { kind: 'word', from, to, word: 'size' }
        : { kind: 'measure', from, to, value, unit, quantity },
    ),
    ...likenesses(tokens),
    ...storedPlaces(tokens),
    ...itemNumbers(tokens, listener.known),
  ];
  const after = [...counts(tokens), ...parts, ...particleActs(tokens), ...said, ...smallWords(tokens)];
  const made = { listener, parts, before, after };
  proposed.set(tokens, made);
  return made;
}

/** Everything that the words of a message may mean, then the best cover of them. */
export function tag(
  tokens: readonly Token[],
  listener: Listener,
  ordinary: (word: string) => boolean,
): Chunk[] {
  const { parts, before, after } = proposedFor(tokens, listener);
  const proposals = [...before, ...names(tokens, listener.known, ordinary), ...after];
  return withNested(chooseChunks(proposals, tokens.length), parts, tokens);
}
