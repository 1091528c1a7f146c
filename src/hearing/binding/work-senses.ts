import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import type { Settle } from './settle.js';

const wordAt = (tokens: readonly Token[], at: number): string => tokens[at]?.word ?? '';
const asWord = (chunk: Chunk, word = ''): Chunk => ({ from: chunk.from, to: chunk.to, kind: 'word', word });

const FORCES =
  /^(knock|press|bend|pull|set|tap|beat|hammer|push|tweak|ease|roll|true|dress|get|bring|draw|squeeze|jack|coax|persuade)(s|ed|ing)?$/;
const STRAIGHT = /^(straight|true|square|flat)$/;

/** "press the stand true", "pull the front one straight": bent back, whatever stands between the verb and what it comes to. */
const settleStraightening: Settle = (chunks, tokens) => {
  const out = [...chunks];
  out.forEach((chunk, at) => {
    if (chunk.kind !== 'word' || !FORCES.test(wordAt(tokens, chunk.from))) return;
    for (let next = at + 1; next <= at + 6; next += 1) {
      const end = out[next];
      if (end === undefined || !/^(article|pronoun|place|part|count|word|condition)$/.test(end.kind)) return;
      if (!STRAIGHT.test(wordAt(tokens, end.from)) || end.to !== end.from + 1) {
        if (end.kind === 'condition') return;
        continue;
      }
      if (next === at + 1) return;
      out[at] = { from: chunk.from, to: chunk.to, kind: 'process', process: 'straighten', doer: 'either' };
      out[next] = asWord(end);
      return;
    }
  });
  return out;
};

const TOOL = /^(lathe|mill|press|vice|jig|bench|drill|grinder|linisher|mandrel|mandrels|anvil)$/;

/** "turn one up on the lathe", "straighten it in the press": with what a work is done is no work of its own. */
const settleTools: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const tool =
      chunk.kind === 'process' &&
      /^(on|in)$/.test(wordAt(tokens, chunk.from)) &&
      TOOL.test(wordAt(tokens, chunk.to - 1));
    if (!tool) return chunk;
    const clause = chunks.slice(0, at);
    const since = clause.slice(clause.findLastIndex((one) => one.kind === 'break') + 1);
    const work = since.some(
      (one) => one.kind === 'process' || (one.kind === 'remedy' && /^(make|repair)$/.test(one.remedy)),
    );
    return work ? asWord(chunk) : chunk;
  });

const BEFORE_US = /^(before|previously|badly|already|once|poorly|horribly|crudely|sometime)$/;
const SOMEBODY = /^(some|somebody|someone|previous|last|a|whoever|an)$/;

/** "it's been brazed up before", "been drilled out by some butcher": done by others long ago, and no work of ours. */
const settlePastWork: Settle = (chunks, tokens) =>
  chunks.map((chunk) => {
    if (chunk.kind !== 'process' && chunk.kind !== 'remedy') return chunk;
    const before = wordAt(tokens, chunk.from - 1);
    const been = before === 'been' || (BEFORE_US.test(before) && wordAt(tokens, chunk.from - 2) === 'been');
    if (!been) return chunk;
    const who = wordAt(tokens, chunk.to + 1) === 'the' ? 2 : 1;
    const by = wordAt(tokens, chunk.to) === 'by' && SOMEBODY.test(wordAt(tokens, chunk.to + who));
    if (by) return { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'bodged' };
    return BEFORE_US.test(before) || BEFORE_US.test(wordAt(tokens, chunk.to)) ? asWord(chunk) : chunk;
  });

/** "no use plating them", "forget welding it", "not worth chroming": that work is not to be done. */
const settleNoUse: Settle = (chunks, tokens) => {
  const dropped = new Set<number>();
  const out = chunks.map((chunk, at): Chunk => {
    if (chunk.kind !== 'process' || !/ing$/.test(wordAt(tokens, chunk.from))) return chunk;
    const back = wordAt(tokens, chunk.from - 1) === 'in' ? 2 : 1;
    const [near, far] = [wordAt(tokens, chunk.from - back), wordAt(tokens, chunk.from - back - 1)];
    const noUse =
      /^(forget|bother|stop)$/.test(near) ||
      (/^(use|point|sense|good|need|worth)$/.test(near) && /^(no|not|any|much|little)$/.test(far));
    if (!noUse) return chunk;
    if (chunks[at - 1]?.kind === 'condition' && back === 1) dropped.add(at - 1);
    return asWord(chunk);
  });
  return out.filter((_, at) => !dropped.has(at));
};

/** "it can go away for straightening", "they'll go off to be plated": to be sent, where "gone away" is sent. */
const settleGoing: Settle = (chunks, tokens) =>
  chunks.map((chunk) => {
    if (chunk.kind !== 'act' || chunk.act !== 'sent') return chunk;
    const first = chunk.from - (wordAt(tokens, chunk.from) === 'go' ? 0 : 1);
    const ahead =
      wordAt(tokens, first) === 'go' &&
      /^(can|could|must|should|will|'ll|to|had|better|may)$/.test(wordAt(tokens, first - 1));
    return ahead ? { from: chunk.from, to: chunk.to, kind: 'remedy', remedy: 'send-out' } : chunk;
  });

/** "get that off Hadley": bought of him, where "off to Hadley" sends it. */
const settleGetOff: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) =>
    chunk.kind === 'remedy' &&
    chunk.remedy === 'send-out' &&
    /^(get|getting|got|have|having)$/.test(wordAt(tokens, chunk.from)) &&
    /^(off|from)$/.test(wordAt(tokens, chunk.to - 1)) &&
    chunks[at + 1]?.kind === 'supplier'
      ? { from: chunk.from, to: chunk.to, kind: 'remedy', remedy: 'replace' }
      : chunk,
  );

/** "that'll need stripped", "wants taken off": still to be done, as "needs stripping" is. */
const settleStillToDo: Settle = (chunks, tokens) =>
  chunks.map((chunk) =>
    chunk.kind === 'act' &&
    /^(stripped|fitted)$/.test(chunk.act) &&
    /^(needs?|wants?|needing|wanting)$/.test(wordAt(tokens, chunk.from - 1))
      ? asWord(chunk)
      : chunk,
  );

const CALLS = /^(ring|call|phone|chase|text|remind|nudge|email|badger)$/;
const CALLED = /^(him|her|them|us|me|up|again|back)$/;

/** "3 weeks he says, ring him on the 20th": the day to ring is not when it is due. */
const settleRingOn: Settle = (chunks, tokens) => {
  const dates = chunks.filter((chunk) => chunk.kind === 'date').length;
  if (dates < 2) return [...chunks];
  return chunks.map((chunk, at) => {
    if (chunk.kind !== 'date') return chunk;
    let first = at;
    while (first > 0 && !/^(break|and)$/.test(chunks[first - 1]?.kind ?? '')) first -= 1;
    const from = chunks[first]?.from ?? chunk.from;
    const call = tokens
      .slice(from, chunk.from)
      .findIndex(
        (token, nth) =>
          CALLS.test(token.word) &&
          (nth === 0 || /^(ll|'ll|to|must|will|better|and)$/.test(wordAt(tokens, from + nth - 1))),
      );
    const called =
      call >= 0 &&
      (CALLED.test(wordAt(tokens, from + call + 1)) ||
        chunks.some((one) => one.kind === 'supplier' && one.from === from + call + 1));
    return called ? asWord(chunk) : chunk;
  });
};

/** "full set of plates wanted", "new rings needed": what is still to be had, where the clause decides nothing else. */
export const settleWanted: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'word' || !/^(wanted|required|needed)$/.test(wordAt(tokens, chunk.from))) return chunk;
    const next = chunks[at + 1];
    const ends = next === undefined || next.kind === 'break' || next.kind === 'and' || next.kind === 'aside';
    const since = chunks.slice(chunks.slice(0, at).findLastIndex((one) => one.kind === 'break') + 1, at);
    const thing = since.some((one) => one.kind === 'part');
    const told = since.some(
      (one) =>
        /^(remedy|process|denial|condition|money)$/.test(one.kind) ||
        (one.kind === 'act' && one.outcome !== 'all'),
    );
    return ends && thing && !told
      ? { from: chunk.from, to: chunk.to, kind: 'remedy', remedy: 'replace' }
      : chunk;
  });

const HELD = /^(up|out|off|apart|down|back|over|running|going|checked|measured|tested|since|done|away)$/;

/** "63 dead", "dead true": exactly so, and nothing is broken; "having it done for Friday": done by then, not worn out. */
const settleExact: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'condition') return chunk;
    const [first, last] = [wordAt(tokens, chunk.from), wordAt(tokens, chunk.to - 1)];
    const [before, next] = [chunks[at - 1], chunks[at + 1]];
    const dead =
      first === 'dead' &&
      chunk.to === chunk.from + 1 &&
      (before?.kind === 'measure' ||
        tokens[chunk.from - 1]?.kind === 'number' ||
        /^(quiet|comfortable|smooth|easy|handy|good|happy|pleased|chuffed|keen|set|central)$/.test(
          wordAt(tokens, chunk.to),
        ));
    // "spent two hours on it": time, and nothing is worn.
    const spent = first === 'spent' && /^(count|date|measure)$/.test(next?.kind ?? '');
    const doneFor =
      first === 'done' && last === 'for' && /^(article|date|supplier|owner|machine)$/.test(next?.kind ?? '');
    // "a good 40 thou out": 40 and more. "had it round the block": no end of it.
    const ample =
      first === 'good' &&
      /^(a|the)$/.test(wordAt(tokens, chunk.from - 1)) &&
      (next?.kind === 'measure' || next?.kind === 'count');
    const hadIt =
      first === 'had' &&
      last === 'it' &&
      (next?.kind === 'of' ||
        next?.kind === 'act' ||
        next?.kind === 'supplier' ||
        HELD.test(wordAt(tokens, chunk.to)));
    return dead || spent || doneFor || ample || hadIt ? asWord(chunk) : chunk;
  });

const ROUND = /^(round|through|in|at|by|between|near|past|across|along|under)$/;

/** "cracked round two of the holes", "torqued in three goes": how many of something else. */
const settleOtherCounts: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) =>
    chunk.kind === 'count' &&
    !chunk.both &&
    ROUND.test(wordAt(tokens, chunk.from - 1)) &&
    (chunks[at + 1]?.kind === 'word' ||
      (chunks[at + 1]?.kind === 'article' && chunks[at + 2]?.kind === 'word'))
      ? asWord(chunk)
      : chunk,
  );

/** Whose work is spoken of, with what it is done, and what only looks like it. */
export const WORK_STEPS: readonly Settle[] = [
  settleStraightening,
  settleTools,
  settlePastWork,
  settleNoUse,
  settleGoing,
  settleGetOff,
  settleStillToDo,
  settleRingOn,
  settleWanted,
  settleExact,
  settleOtherCounts,
];
