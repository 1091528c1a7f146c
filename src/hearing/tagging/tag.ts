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
import { itemNumbers } from './item-numbers.js';
import { nameIndex, namesIn, remembered } from './name-index.js';
import { names } from './names.js';
import { partOf, unknownPart } from './part-index.js';
import { matches, phraseIndex, phraseKey } from './phrase-index.js';
import { smallWords } from './small-words.js';
import { storedPlaces } from './stored.js';

const BY = /^(by|before|until|till|for|due|ready)$/;

function dated(tokens: readonly Token[], today: string): Chunk[] {
  const gear = /^(gear|gears|pinion|speed|cog)$/;
  const found = dueDates(tokens, today).filter(
    ({ from, to }) => !(to === from + 1 && gear.test(tokens[to]?.word ?? '')),
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
  const said = matches(tokens, (key) => phraseIndex.get(key)).flatMap(({ from, to, means }) =>
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
    ...storedPlaces(tokens),
    ...itemNumbers(tokens, listener.known),
    ...names(tokens, listener.known, ordinary),
    ...counts(tokens),
    ...parts,
    ...particleActs(tokens),
    ...said,
    ...smallWords(tokens),
  ];
  const opening =
    tokens[0]?.word === 'right' && tokens[1]?.text === ','
      ? [{ kind: 'aside' as const, from: 0, to: 2 }]
      : [];
  return withNested(chooseChunks([...opening, ...proposals], tokens.length), parts, tokens);
}
