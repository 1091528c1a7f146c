import type { Chunk } from '../tagging/chunk.js';
import { wordAt, wordsBefore, wordsOf } from '../text/word-at.js';
import { step, type Settle, type Step } from './settle.js';

const act = (chunk: Chunk, done: 'sent' | 'fitted' | 'stripped'): Chunk => ({
  from: chunk.from,
  to: chunk.to,
  kind: 'act',
  act: done,
  outcome: null,
});

const opensClause = (chunks: readonly Chunk[], at: number): boolean => {
  let first = at;
  while (/^(article|place|count|part|and)$/.test(chunks[first - 1]?.kind ?? '')) first -= 1;
  const before = chunks[first - 1];
  return before === undefined || before.kind === 'break';
};

/** "stanchions away to Ridding's", "levers off to the plater": things alone, on their way. "Tank away to be lined" is still to go. */
const settleAway: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const away =
      /^(remedy|act)$/.test(chunk.kind) && /^(away|off|over|round|out) to$/.test(wordsOf(tokens, chunk));
    const thing = chunks[at - 1]?.kind === 'part' && opensClause(chunks, at - 1);
    return away && thing && chunks[at + 1]?.kind === 'supplier' ? act(chunk, 'sent') : chunk;
  });

/** "it may go back in", "that can go back on": a decision to keep it, nothing done yet. */
const settleMayGoBack: Settle = (chunks, tokens) =>
  chunks.map((chunk) => {
    const before = wordsBefore(tokens, chunk.from, 2);
    const may = /^(may|can|could|might)$/.test(before[0] ?? '') && /^(go|stay|be)$/.test(before[1] ?? '');
    return chunk.kind === 'act' && chunk.act === 'fitted' && may && wordAt(tokens, chunk.from) === 'back'
      ? { from: chunk.from, to: chunk.to, kind: 'remedy', remedy: 'keep' }
      : chunk;
  });

/** What hangs comes off as it comes down; what stands on something is fitted when it is down. */
const HANGS = /^(telescopic fork|girder fork|fork|engine|gearbox|exhaust system)$/;
const STANDS_ON = /^(cylinder barrel|cylinder head|rocker box)$/;

/** "front forks down.", "the barrel's down": as far as it goes. */
const settleDown: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const next = chunks[at + 1];
    const ends = next === undefined || next.kind === 'break' || next.kind === 'and';
    if (chunk.kind !== 'word' || wordsOf(tokens, chunk) !== 'down' || !ends) return chunk;
    const thing = chunks[at - (chunks[at - 1]?.kind === 'copula' ? 2 : 1)];
    if (thing?.kind !== 'part') return chunk;
    if (HANGS.test(thing.part)) return act(chunk, 'stripped');
    return STANDS_ON.test(thing.part) ? act(chunk, 'fitted') : chunk;
  });

/** "so I've put a new one on": done, where "put a new one on" asks for it. */
const settleNewOnePut: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const said = wordsOf(tokens, chunk);
    const done =
      chunk.kind === 'remedy' &&
      chunk.remedy === 'replace' &&
      /^(put|stuck|popped|fitted) a new (one|set|pair) (on|in)$/.test(said);
    return done &&
      chunks[at - 1]?.kind === 'copula' &&
      /^(have|'ve|has|had)$/.test(wordAt(tokens, chunk.from - 1))
      ? act(chunk, 'fitted')
      : chunk;
  });

const BUT = /^(bar|barring|except|but|excepting|save|minus)$/;

/** "all there bar the tool roll and the pump", of a machine: those are missing. */
const settleAllBut: Settle = (chunks, tokens) => {
  const came = chunks.some(
    (chunk) =>
      chunk.kind === 'supplier' ||
      (chunk.kind === 'act' && /^(sent|ordered)$/.test(chunk.act)) ||
      (chunk.kind === 'act' &&
        chunk.act === 'back' &&
        /^(back|came|come|arrived)/.test(wordAt(tokens, chunk.from))),
  );
  const all = chunks.findIndex((chunk) => /^(all (there|present)|complete)$/.test(wordsOf(tokens, chunk)));
  const but = chunks[all + 1];
  if (came || all < 0 || but === undefined || !BUT.test(wordAt(tokens, but.from))) return [...chunks];
  const end = chunks.findIndex(
    (chunk, at) => at > all && chunk.kind === 'break' && chunk.strength === 'full',
  );
  return chunks.flatMap((chunk, at): Chunk[] => {
    if (at === all || at === all + 1) return [{ from: chunk.from, to: chunk.to, kind: 'word', word: '' }];
    const missing =
      chunk.kind === 'part' && at > all && (end < 0 || at < end) && chunks[at + 1]?.kind !== 'part';
    return missing
      ? [chunk, { from: chunk.to, to: chunk.to, kind: 'condition', condition: 'missing' }]
      : [chunk];
  });
};

/** "if that lad rings again", "she rings back": somebody calls, no piston ring. */
const settleRings: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'part' || !/^rings?$/.test(wordsOf(tokens, chunk))) return chunk;
    const before = chunks[at - 1]?.kind;
    const said =
      /^rings$/.test(wordsOf(tokens, chunk)) && /^(he|she|they|owner)$/.test(wordAt(tokens, chunk.from - 1));
    const given =
      /^(give|gave|giving)$/.test(wordAt(tokens, chunk.from - 4)) ||
      /^(give|gave)$/.test(wordAt(tokens, chunk.from - 3));
    const calls =
      said ||
      (given && /^(a|an)$/.test(wordAt(tokens, chunk.from - 1))) ||
      (/^(again|back|up|me|us|you|first|tomorrow|tonight|later)$/.test(wordAt(tokens, chunk.to)) &&
        (before === 'word' || before === 'owner' || before === 'supplier' || before === 'pronoun'));
    return calls ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'ring' } : chunk;
  });

/** "the bearing in that rear wheel": points at a thing that is named, and stands for none. */
const settleThatThing: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const next = chunks[at + 1];
    const names = next?.kind === 'part' || (next?.kind === 'place' && chunks[at + 2]?.kind === 'part');
    return chunk.kind === 'pronoun' &&
      /^(that|this|those|these)$/.test(wordsOf(tokens, chunk)) &&
      chunks[at - 1]?.kind === 'of' &&
      names
      ? { from: chunk.from, to: chunk.to, kind: 'article', definite: true }
      : chunk;
  });

/** Words that tell where a thing now stands or goes. */
export const STANDING_STEPS: readonly Step[] = [
  step(settleAway, 'away off over round out'),
  step(settleMayGoBack, 'back'),
  step(settleDown, 'down'),
  step(settleNewOnePut, 'new'),
  step(settleAllBut, 'bar barring except but excepting save minus'),
  step(settleRings, 'ring rings'),
  step(settleThatThing, 'that this those these'),
];
