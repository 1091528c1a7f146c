import { wordAt, wordsBefore, wordsOf } from '../text/word-at.js';
import { step, type Settle, type Step } from './settle.js';

/** "4 thou now it's shimmed", "11 inches off the bike": how it stands as measured. */
const settleAsMeasured: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const before = wordsBefore(tokens, chunk.from, 3);
    const done =
      chunk.kind === 'remedy' && /ed$/.test(wordAt(tokens, chunk.to - 1)) && before.includes('now');
    const off =
      chunk.kind === 'act' &&
      chunk.act === 'stripped' &&
      tokens[chunk.from]?.word === 'off' &&
      chunks[at - 1]?.kind === 'measure';
    // "till the pistons turn up"
    const comes =
      chunk.kind === 'remedy' &&
      chunk.remedy === 'make' &&
      /^turns?$/.test(wordAt(tokens, chunk.from)) &&
      chunks[at - 1]?.kind === 'part' &&
      (chunks[at + 1] === undefined || chunks[at + 1]?.kind === 'break');
    return done || off || comes ? { from: chunk.from, to: chunk.to, kind: 'word', word: '' } : chunk;
  });

const VERB =
  /^(have|be|need|want|get|try|make|do|take|see|start|look|let|give|go|put|ask|ring|wait|leave|keep)$/;

/** "going to have to be sleeved" sends nothing; "before we test it" looks at nothing yet; "I'll do those" keeps nothing. */
const settlePlans: Settle = (chunks, tokens) =>
  chunks.map((chunk) => {
    if (chunk.kind !== 'remedy') return chunk;
    const before = wordsBefore(tokens, chunk.from, 3);
    const [first, last] = [wordAt(tokens, chunk.from), wordAt(tokens, chunk.to - 1)];
    const heads =
      chunk.remedy === 'send-out' &&
      last === 'to' &&
      !/^(send|sending|away|off|out)$/.test(first) &&
      VERB.test(wordAt(tokens, chunk.to));
    const later = chunk.remedy === 'check' && before.includes('before');
    const chased =
      /^(chase|chased|chasing)$/.test(first) &&
      !tokens.some(({ word }) => /^(threads?|holes?|studs?|taps?|dies?)$/.test(word));
    // "had another look at that": looked at already.
    const looked =
      chunk.remedy === 'check' &&
      /^(had|took|gave)$/.test(before.at(-1) ?? '') &&
      /look|over/.test(
        tokens
          .slice(chunk.from, chunk.to)
          .map(({ word }) => word)
          .join(' '),
      );
    // "new cork'll do it": that cures it.
    const cures =
      chunk.remedy === 'keep' && last === 'do' && /^(it|that|the)$/.test(tokens[chunk.to]?.word ?? '');
    if (heads || later || chased || looked || cures)
      return { from: chunk.from, to: chunk.to, kind: 'word', word: first };
    const ours =
      chunk.remedy === 'keep' && first === "'ll" && last === 'do' && /^(i|we)$/.test(before.at(-1) ?? '');
    return ours ? { ...chunk, remedy: 'repair' } : chunk;
  });

/** "make it eighteen thou": put right, not made. */
const settleMakeIt: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const [it, next] = [chunks[at + 1], chunks[at + 2]];
    const said = wordsOf(tokens, chunk);
    if (chunk.kind === 'remedy' && said === 'make it' && /^(measure|date|money)$/.test(it?.kind ?? ''))
      return { from: chunk.from, to: chunk.to, kind: 'word', word: 'make' };
    const plain = chunk.kind === 'remedy' && said === 'make' && it?.kind === 'pronoun';
    return plain && /^(measure|date|money)$/.test(next?.kind ?? '')
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'make' }
      : chunk;
  });

/** "the condenser swapped", "replaced the cable": that was done, where "to be replaced" and "needs replacing" are not. */
const settleSwapped: Settle = (chunks, tokens) =>
  chunks.map((chunk) => {
    if (chunk.kind !== 'remedy' || chunk.to !== chunk.from + 1) return chunk;
    if (!/^(swapped|replaced|renewed|changed)$/.test(wordAt(tokens, chunk.from))) return chunk;
    const before = wordsBefore(tokens, chunk.from, 4);
    // "Ought to have replaced it" was not done; "replaced by the last owner" was done by others.
    const by = wordAt(tokens, chunk.to) === 'by' || wordAt(tokens, chunk.to) === 'before';
    return by ||
      before.some((word) =>
        /^(be|get|gets|getting|needs?|wants?|it|them|having|both|that|those|ought|should|could|would|must)$/.test(
          word,
        ),
      )
      ? chunk
      : { from: chunk.from, to: chunk.to, kind: 'act', act: 'fitted', outcome: null };
  });

/** "some clown has built up the hanger": what others did before is no work of ours. */
const settleOthers: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const before = chunks[at - 1];
    const others =
      before?.kind === 'condition' &&
      before.condition === 'bodged' &&
      /^(some|someone|somebody|previous|last)$/.test(wordAt(tokens, before.from));
    return others && chunk.kind === 'act'
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: wordAt(tokens, chunk.from) }
      : chunk;
  });

/** "tappets done: inlet 2 thou": done, and measured. */
const settleDone: Settle = (chunks, tokens) => {
  const measured = chunks.some((chunk) => chunk.kind === 'measure');
  if (!measured || chunks.some((chunk) => chunk.kind === 'date' || chunk.kind === 'supplier'))
    return [...chunks];
  return chunks.map((chunk, at) =>
    chunk.kind === 'word' && tokens[chunk.from]?.word === 'done' && chunks[at - 1]?.kind === 'part'
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'fitted', outcome: null }
      : chunk,
  );
};

/** "wheels gone for powder coat", "it's gone down to Dunn": gone there, not gone in itself. */
const settleGoneTo: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'condition' || tokens[chunk.to - 1]?.word !== 'gone') return chunk;
    let next = at + 1;
    while (
      /^(of|article)$/.test(chunks[next]?.kind ?? '') ||
      /^(off|over|round|down|up|out|away|back)$/.test(wordAt(tokens, chunks[next]?.from ?? -1))
    )
      next += 1;
    const towards = chunks[next]?.kind === 'process' || chunks[next]?.kind === 'supplier';
    const led = /^(for|to|off|over|round|down|up|out|away|with|at)$/.test(wordAt(tokens, chunk.to));
    return led && towards
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'sent', outcome: null }
      : chunk;
  });

/** "Dunn collected the forks", "the courier picked the crank up": who fetched it took it away. */
const settleFetched: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const word = wordAt(tokens, chunk.from);
    if (!/^(collected|picked|fetched)$/.test(word) || (chunk.kind !== 'act' && chunk.kind !== 'word'))
      return chunk;
    const before = chunks[at - 1];
    const theirs =
      (before?.kind === 'supplier' && before.from === 0) ||
      /^(courier|carrier|driver|van)$/.test(wordAt(tokens, chunk.from - 1)) ||
      (/^(they|he|she)$/.test(wordAt(tokens, chunk.from - 1)) &&
        chunks.some((one) => one.kind === 'supplier'));
    return theirs && (chunk.kind === 'act' ? chunk.act === 'back' : true)
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'sent', outcome: null }
      : chunk;
  });

/** "Dunn's got the forks", nothing else told: they are there. */
const settleHas: Settle = (chunks, tokens) => {
  const [who, has, thing] = chunks;
  const told = chunks
    .slice(3)
    .some((one) => /^(date|condition|remedy|money|act|measure|stored)$/.test(one.kind));
  if (who?.kind !== 'supplier' || !who.speaks || has?.kind !== 'copula' || told) return [...chunks];
  const next = chunks.slice(2).find((one) => !/^(copula|article|place|count)$/.test(one.kind));
  const got = /^(has|have|got|'s)$/.test(wordAt(tokens, has.from)) && thing !== undefined;
  if (!got || next?.kind !== 'part') return [...chunks];
  const verb = tokens[has.from]?.word === "'s" ? chunks[2] : has;
  if (verb === undefined || !/^(has|have|got)$/.test(wordAt(tokens, verb.from))) return [...chunks];
  return chunks.map((one) =>
    one === verb ? { from: one.from, to: one.to, kind: 'act', act: 'sent', outcome: null } : one,
  );
};

const COMES = /^(coming|arriving|expected|landing|here|home|due|delivery|delivered|round|in|over|back)$/;

/** "two new tyres coming Friday", "is dropping it in on Saturday": a day that was given. */
const settleComing: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const next = chunks[at + 1]?.kind === 'of' ? chunks[at + 2] : chunks[at + 1];
    if (next?.kind !== 'date' || chunk.to !== chunk.from + 1) return chunk;
    const word = wordAt(tokens, chunk.from);
    const bringing = wordsBefore(tokens, chunk.from, 8).some((word) =>
      /^(dropping|bringing|sending|fetching|posting|delivering)$/.test(word),
    );
    const comes = /^(coming|arriving|expected|landing)$/.test(word) && chunk.kind === 'word';
    return comes || (bringing && COMES.test(word) && /^(word|of|act|place)$/.test(chunk.kind))
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'promised', outcome: null }
      : chunk;
  });

const AWAY = /^(through|off|away|across|in|out|round|over)$/;

/** "burnt clean through", "snapped clean off": how thoroughly, no work to be done. "a fresh lining" is work. */
const settleThorough: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'remedy' || chunk.to !== chunk.from + 1) return chunk;
    const word = wordAt(tokens, chunk.from);
    const next = wordAt(tokens, chunk.to);
    const thorough =
      word === 'clean' &&
      AWAY.test(next) &&
      !/^(it|them|to|and|,)$/.test(wordAt(tokens, chunk.from - 1)) &&
      at > 0 &&
      chunks[at - 1]?.kind !== 'break';
    const work = word === 'fresh' && chunks[at + 1]?.kind === 'process';
    return thorough || work ? { from: chunk.from, to: chunk.to, kind: 'word', word } : chunk;
  });

const PUT_AWAY = /^(stuck|gone|slung|chucked|dumped|left|lost)$/;

/** "stuck the carb on shelf 3", "that's gone in bag 31": put away there, nothing wrong with it. */
const settlePutAway: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'condition' && chunk.kind !== 'place') return chunk;
    if (!PUT_AWAY.test(wordAt(tokens, chunk.from)) || chunk.to !== chunk.from + 1) return chunk;
    const rest = chunks.slice(at + 1);
    const stored = rest.findIndex((one) => one.kind === 'stored');
    const between = rest.slice(0, Math.max(0, stored));
    const plain = between.every((one) => /^(part|article|word|count|place|of|pronoun|and)$/.test(one.kind));
    const object = between.length === 0 || between[0]?.kind === 'article' || between[0]?.kind === 'pronoun';
    return stored >= 0 && plain && object
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'stripped', outcome: null }
      : chunk;
  });

/** Words of doing settled: what was done, by whom, and what only sounds like it. */
export const DOING_STEPS: readonly Step[] = [
  step(settlePlans),
  step(settleAsMeasured, 'now off turn turns'),
  step(settleGoneTo, 'gone'),
  step(settleFetched, 'collected picked fetched'),
  step(settleHas, "has have got 's"),
  step(settleMakeIt, 'make'),
  step(settleSwapped, 'swapped replaced renewed changed'),
  step(settleOthers, 'some someone somebody previous last'),
  step(settleDone, 'done'),
  step(
    settleComing,
    'coming arriving expected landing dropping bringing sending fetching posting delivering',
  ),
  step(settleThorough, 'clean fresh'),
  step(settlePutAway, 'stuck gone slung chucked dumped left lost'),
];
