import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { standsAt, wordAt, wordsBefore } from '../text/word-at.js';
import { step, type Settle, type Step } from './settle.js';

const ends = (chunk: Chunk | undefined): boolean =>
  chunk === undefined || chunk.kind === 'break' || chunk.kind === 'and';

/** How a thing is to be left: "be", "alone", "as they are". */
const LEFT_AS: readonly (readonly string[])[] = [
  ['be'],
  ['alone'],
  ['well', 'alone'],
  ['put'],
  ['as', 'is'],
  ...['it', 'they', 'that'].flatMap((who) =>
    ['is', "'s", 'are', "'re", 'was', 'were'].flatMap((state) => [
      ['as', who, state],
      ['where', who, state],
    ]),
  ),
];

/** How many tokens tell how the thing is to be left; 0 where none do. */
const leftAs = (tokens: readonly Token[], at: number): number =>
  LEFT_AS.findLast((words) => standsAt(tokens, at, words))?.length ?? 0;

const OBJECT = /^(article|place|part|count|pronoun)$/;
const FORBIDS = /^(don't|can't|won't|not|never|i|have|had|they|he|she)$/;

/** "says go ahead with the tank but leave the seat": what an owner leaves is refused, whatever it is. */
const settleRefused: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const agreed = chunks.slice(0, at).some((one) => one.kind === 'act' && one.act === 'agreed');
    const ours = /^(to|i|we|'ll|'ve|have)$/.test(wordAt(tokens, chunk.from - 1));
    if (chunk.kind !== 'word' || !/^leave$/.test(wordAt(tokens, chunk.from)) || !agreed || ours) return chunk;
    return /^(article|place|part|process|count)$/.test(chunks[at + 1]?.kind ?? '')
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'agreed', outcome: 'no' }
      : chunk;
  });

/** "leave the inlet valves as they are", "leave both levers", "inlet 2.5, leave": kept, whatever it is called. */
const settleLeave: Settle = (chunks, tokens) => {
  const out: Chunk[] = [];
  for (let at = 0; at < chunks.length; at += 1) {
    const chunk = chunks[at];
    if (chunk === undefined) break;
    out.push(chunk);
    const word = wordAt(tokens, chunk.from);
    if (chunk.kind !== 'word' || !/^(leave|leaving)$/.test(word)) continue;
    if (FORBIDS.test(wordAt(tokens, chunk.from - 1)) && word === 'leave') continue;
    let next = at + 1;
    while (OBJECT.test(chunks[next]?.kind ?? '')) next += 1;
    const named = chunks.slice(at + 1, next);
    const from = chunks[next]?.from ?? tokens.length;
    const as = next > at + 1 ? leftAs(tokens, from) : 0;
    const plainly = ends(chunks[next]) && (next === at + 1 || named.some(({ kind }) => kind === 'part'));
    if (as === 0 && !plainly) continue;
    // "leave the outside be": a side of the thing alone.
    if (as > 0 && named.some(({ kind }) => kind === 'place') && !named.some(({ kind }) => kind === 'part'))
      continue;
    out[out.length - 1] = { from: chunk.from, to: chunk.to, kind: 'remedy', remedy: 'keep' };
    out.push(...named);
    if (as > 0) {
      out.push({ from, to: from + as, kind: 'aside' });
      while ((chunks[next]?.from ?? Infinity) < from + as) next += 1;
    }
    at = next - 1;
  }
  return out;
};

/** "blast un and paint un", "knock un straight": it, where "a good un" is one of them. */
const settleUn: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (!/^['’]?un$/i.test(tokens[chunk.from]?.text ?? '') || chunk.to !== chunk.from + 1) return chunk;
    const led = chunks[at - 1];
    const work = led?.kind === 'process' || (led?.kind === 'remedy' && led.to === led.from + 1);
    return work ? { from: chunk.from, to: chunk.to, kind: 'pronoun', refers: 'last' } : chunk;
  });

/** "first look over the machine", "see what's in the drawer": looked at or for, no thing to be checked. */
const settleLooks: Settle = (chunks, tokens) => {
  const out: Chunk[] = [];
  chunks.forEach((chunk) => {
    if (chunk.kind === 'stored' && out.at(-1)?.kind === 'aside') return;
    if (chunk.kind !== 'remedy' || chunk.remedy !== 'check') {
      out.push(chunk);
      return;
    }
    const first = /^(first|quick|initial)$/.test(wordAt(tokens, chunk.from - 1));
    const last = wordAt(tokens, chunk.to - 1);
    const seen = wordAt(tokens, chunk.from) === 'see' && /^(what|if|whether)$/.test(last);
    const there =
      seen &&
      tokens
        .slice(chunk.to, chunk.to + 5)
        .some(
          ({ word }, nth, after) =>
            /^(in|on|at)$/.test(word) && /^(the|my|his)$/.test(after[nth + 1]?.word ?? ''),
        );
    out.push(first || there ? { from: chunk.from, to: chunk.to, kind: 'aside' } : chunk);
  });
  return out;
};

/** "chain's adjusted, 20 mm": done, and measured since; "wants adjusting" is still to be done. */
const settleAdjusted: Settle = (chunks, tokens) => {
  if (!chunks.some((chunk) => chunk.kind === 'measure')) return [...chunks];
  return chunks.map((chunk, at) => {
    const done =
      chunk.kind === 'remedy' &&
      chunk.remedy === 'repair' &&
      chunk.to === chunk.from + 1 &&
      /^(adjusted|readjusted|reset)$/.test(wordAt(tokens, chunk.from)) &&
      !wordsBefore(tokens, chunk.from, 2).some((word) => /^(be|it|them|get|needs?|wants?)$/.test(word));
    const told = chunks[at - 1]?.kind === 'copula' || chunks[at - 1]?.kind === 'part';
    return done && told ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'adjusted' } : chunk;
  });
};

/** "send both to", "knock both of them straight": a count inside a saying counts as well. */
const settleBoth: Settle = (chunks, tokens) =>
  chunks.flatMap((chunk): Chunk[] => {
    if (chunk.kind !== 'remedy' && chunk.kind !== 'process') return [chunk];
    const both = tokens.findIndex(({ word }, at) => at > chunk.from && at < chunk.to - 1 && word === 'both');
    if (both < 0) return [chunk];
    const to = /^(to|for|at|with)$/.test(wordAt(tokens, chunk.to - 1)) && both === chunk.to - 2;
    return [
      { ...chunk, to: both },
      { from: both, to: both + 1, kind: 'count', count: 2, both: true, of: false },
      { from: both + 1, to: chunk.to, kind: to ? 'of' : 'aside' },
    ];
  });

const AHEAD = /^(i|we) ('ll|will|can|must|shall)$|^(have|had|need|needs|going) to$/;

/** "I'll cut that one": work to be done, where "cut right through" is how it is. */
const settleToBeCut: Settle = (chunks, tokens) =>
  chunks.map((chunk) => {
    const verb = chunk.kind === 'condition' && chunk.to === chunk.from + 1 && wordAt(tokens, chunk.from);
    return (verb === 'cut' || verb === 'bend') && AHEAD.test(wordsBefore(tokens, chunk.from, 2).join(' '))
      ? { from: chunk.from, to: chunk.to, kind: 'remedy', remedy: 'repair' }
      : chunk;
  });

const ASKS = /^(talk|talking|speak|speaking|chat|ask|check|consult|word)$/;
const KIN =
  /^(wife|husband|son|daughter|brother|sister|father|dad|mother|mum|missus|partner|family|bank|accountant|mate|friend)$/;
const THEIRS = /^(his|her|their|the|our)$/;

/** "she'll have to talk to her son about the rims", "wishes to think it over": not decided yet, whoever is to be asked. */
const settleTalkOver: Settle = (chunks, tokens) => {
  const out: Chunk[] = [];
  let past = 0;
  for (const chunk of chunks) {
    if (chunk.from < past) continue;
    const end = chunk.kind === 'word' ? talkedOver(tokens, chunk.from) : 0;
    if (end === 0) out.push(chunk);
    else {
      past = chunks.find((one) => one.to >= end)?.to ?? end;
      out.push({ from: chunk.from, to: past, kind: 'act', act: 'agreed', outcome: 'talk' });
    }
  }
  return out;
};

/** Where the words for asking somebody or thinking of something end; 0 where none begin here. */
function talkedOver(tokens: readonly Token[], at: number): number {
  const word = wordAt(tokens, at);
  if (word === 'think') {
    const it = /^(it|that|them|things)$/.test(wordAt(tokens, at + 1)) ? 1 : 0;
    return /^(over|on)$/.test(wordAt(tokens, at + 1 + it)) ? at + 2 + it : 0;
  }
  if (!ASKS.test(word)) return 0;
  const to = /^(to|with)$/.test(wordAt(tokens, at + 1)) ? 1 : 0;
  if (!THEIRS.test(wordAt(tokens, at + 1 + to)) || !KIN.test(wordAt(tokens, at + 2 + to))) return 0;
  const about = /^(about|on|first|over)$/.test(wordAt(tokens, at + 3 + to)) ? 1 : 0;
  return at + 3 + to + about;
}

/** What is decided, settled by its object and its company. */
export const DECISION_STEPS: readonly Step[] = [
  step(settleRefused, 'leave'),
  step(settleBoth, 'both'),
  step(settleToBeCut, 'cut bend'),
  step(settleTalkOver, 'think talk talking speak speaking chat ask check consult word'),
  step(settleLeave, 'leave leaving'),
  step(settleUn, 'one'),
  step(settleLooks, 'look see first quick initial'),
  step(settleAdjusted, 'adjusted readjusted reset'),
];
