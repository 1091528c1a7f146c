import { sums } from '../amounts/money.js';
import { measures } from '../amounts/measures.js';
import { isNominal } from '../amounts/nominal.js';
import { dueDates } from '../dates/due-dates.js';
import type { Listener } from '../listener.js';
import type { Token } from '../text/tokens.js';
import { phrases } from '../../trade/lexicon/phrases.js';
import { chooseChunks } from './choose.js';
import type { Chunk, PartMeaning } from './chunk.js';
import { counts } from './counts.js';
import { likenesses } from './likenesses.js';
import { itemNumbers } from './item-numbers.js';
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

function learntWords(tokens: readonly Token[], listener: Listener): Chunk[] {
  const words = listener.known?.words ?? [];
  if (words.length === 0) return [];
  const learnt = new Map(words.map(({ said, part }) => [phraseKey(said), part]));
  return matches<PartMeaning>(tokens, (key, last) => {
    const part = learnt.get(key) ?? (last.word.endsWith('s') ? learnt.get(key.slice(0, -1)) : undefined);
    return part === undefined ? undefined : unknownPart(part, learnt.get(key) === undefined, true);
  }).map(({ from, to, means }) => ({ from, to, ...means }));
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

/** Everything that the words of a message may mean, then the best cover of them. */
export function tag(
  tokens: readonly Token[],
  listener: Listener,
  ordinary: (word: string) => boolean,
): Chunk[] {
  const parts = matches<PartMeaning>(tokens, partOf).map(({ from, to, means }): Chunk => ({
    from,
    to,
    ...means,
    sure: !tokens.slice(from, to).some((token) => token.repaired === true),
  }));
  const said = sayings(tokens).flatMap(({ from, to, means }) =>
    means.map((meaning): Chunk => ({ from, to, ...meaning })),
  );
  const proposals: Chunk[] = [
    ...learntWords(tokens, listener),
    ...dated(tokens, listener.today),
    ...sums(tokens).map(({ from, to, cost, pieces, together, sure }): Chunk => ({
      kind: 'money',
      from,
      to,
      cost,
      pieces,
      together,
      sure,
    })),
    ...measures(tokens).map(({ from, to, value, unit, quantity }): Chunk =>
      isNominal(tokens, { from, to })
        ? { kind: 'word', from, to, word: 'size' }
        : { kind: 'measure', from, to, value, unit, quantity },
    ),
    ...likenesses(tokens),
    ...storedPlaces(tokens),
    ...itemNumbers(tokens, listener.known),
    ...names(tokens, listener.known, ordinary),
    ...counts(tokens),
    ...parts,
    ...particleActs(tokens),
    ...said,
    ...smallWords(tokens),
  ];
  const right = tokens[0]?.word === 'right';
  const opening =
    right && tokens[1]?.text === ','
      ? [{ kind: 'aside' as const, from: 0, to: 2 }]
      : right && OPENED.test(tokens[1]?.word ?? '')
        ? [{ kind: 'aside' as const, from: 0, to: 1 }]
        : [];
  return withNested(chooseChunks([...opening, ...proposals], tokens.length), parts, tokens);
}
