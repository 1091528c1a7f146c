import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import type { Settle } from './settle.js';

const wordOf = (chunk: Chunk | undefined, tokens: readonly Token[]): string =>
  chunk === undefined || chunk.to !== chunk.from + 1 ? '' : (tokens[chunk.from]?.word ?? '');

const fitted = (from: number, to: number): Chunk => ({ from, to, kind: 'act', act: 'fitted', outcome: null });

const ends = (chunk: Chunk | undefined): boolean => chunk === undefined || /^(break|and)$/.test(chunk.kind);

/** What is done to a thing as it goes in. */
const DONE_UP =
  /^(greased|oiled|packed|adjusted|bled|torqued|tightened|shimmed|set|timed|locked|wired|tabbed|centred|lubed|nipped)$/;

const isFitted = (chunk: Chunk | undefined): boolean => chunk?.kind === 'act' && chunk.act === 'fitted';

/** "bearings in greased and adjusted", "both on and oiled": fitted, with what belongs to it. */
function settleDoneUp(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const out = [...chunks];
  chunks.forEach((chunk, at) => {
    const led = chunks[at - 1];
    const particle =
      chunk.kind === 'of' &&
      /^(in|on)$/.test(wordOf(chunk, tokens)) &&
      (led?.kind === 'part' ||
        led?.kind === 'copula' ||
        (led?.kind === 'count' && led.both) ||
        led?.kind === 'item');
    if (!particle && !isFitted(chunk)) return;
    let next = at + 1;
    let last = at;
    while (ends(chunks[next]) || DONE_UP.test(wordOf(chunks[next], tokens))) {
      if (chunks[next] === undefined) break;
      if (!ends(chunks[next])) last = next;
      next += 1;
    }
    if (last === at) return;
    out[at] = fitted(chunk.from, chunk.to);
    for (let index = at + 1; index <= last; index += 1)
      if (!ends(chunks[index]))
        out[index] = {
          from: chunks[index]?.from ?? 0,
          to: chunks[index]?.to ?? 0,
          kind: 'word',
          word: 'done',
        };
  });
  return out;
}

/** What other things go into. */
const HOST =
  /^(case|cases|crankcase|crankcases|frame|hub|hubs|head|barrel|barrels|fork|forks|engine|wheel|wheels|yoke|yokes|sliders?|housing)$/;
const NOW = /^(now|today|already|again|done)$/;

/** "both mains are in the cases", "new tyre on the back wheel now": in its place, and the place is no thing of its own. */
function settleInPlace(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const out: (Chunk | null)[] = [...chunks];
  chunks.forEach((chunk, at) => {
    if (chunk.kind !== 'of' || !/^(in|on|into)$/.test(wordOf(chunk, tokens))) return;
    let host = at + 1;
    while (/^(article|place)$/.test(chunks[host]?.kind ?? '')) host += 1;
    const whole = chunks[host];
    if (whole?.kind !== 'part' || host === at + 1 || !HOST.test(tokens[whole.to - 1]?.word ?? '')) return;
    const after = chunks[host + 1];
    const is = chunks[at - 1]?.kind === 'copula' && /^(is|are|'s|'re)$/.test(wordOf(chunks[at - 1], tokens));
    const start = chunks.findLastIndex((one, index) => index < at && one.kind === 'break') + 1;
    const run = chunks.slice(start, at);
    const fresh = run.findIndex((one) => one.kind === 'remedy' && wordOf(one, tokens) === 'new');
    const renewed = fresh >= 0 && NOW.test(wordOf(after, tokens)) && chunks[at - 1]?.kind === 'part';
    if (!(is && chunks[at - 2]?.kind === 'part' && ends(after)) && !renewed) return;
    if (run.some((one) => /^(condition|act|denial)$/.test(one.kind))) return;
    if (renewed) out[start + fresh] = null;
    for (let index = at; index < host; index += 1) if (out[index]?.kind !== 'place') out[index] = null;
    out[host] = fitted(chunk.from, whole.to);
  });
  return out.filter((chunk) => chunk !== null);
}

/** "new gasket fitted": fitted; that it is new decides nothing more. "fitted with new bolts": those too. */
const settleFittedNew: Settle = (chunks, tokens) =>
  chunks.flatMap((chunk, at): Chunk[] => {
    const next = chunks[at + 1];
    const start = chunks.findLastIndex((one, index) => index < at && one.kind === 'break') + 1;
    const with_ =
      chunk.kind === 'of' &&
      wordOf(chunk, tokens) === 'with' &&
      wordOf(next, tokens) === 'new' &&
      chunks[at + 2]?.kind === 'part' &&
      chunks.slice(start, at).some(isFitted);
    return with_ ? [{ from: chunk.from, to: chunk.to, kind: 'and' }] : [chunk];
  });

/** "bearings gone on the Lanyon": worn out, where the machine follows. */
const settleGoneOn: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const article = chunks[at + 1]?.kind === 'article' ? 1 : 0;
    return isFitted(chunk) &&
      tokens[chunk.from]?.word === 'gone' &&
      chunks[at - 1]?.kind === 'part' &&
      chunks[at + 1 + article]?.kind === 'machine'
      ? { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'worn' }
      : chunk;
  });

const WILL = /^('ll|will|to|can|could|should|might|must|would|'d)$/;

/** "that'll need stripped and looked at": wanted, not done. */
const settleWanted: Settle = (chunks, tokens) =>
  chunks.map((chunk) => {
    const [led, before] = [tokens[chunk.from - 1]?.word ?? '', tokens[chunk.from - 2]?.word ?? ''];
    const wanted =
      /^(need|needs|wants|want)$/.test(led) ||
      (led === 'be' && /^(to|'ll|will|must|should|can|could|might)$/.test(before));
    return wanted &&
      chunk.kind === 'act' &&
      chunk.act === 'stripped' &&
      /ed$/.test(tokens[chunk.to - 1]?.word ?? '')
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'stripped' }
      : chunk;
  });

/** "chaincase off the Brindwick, …": taken off it, where no more is told of it. */
const settleOffMachine: Settle = (chunks, tokens) =>
  chunks.flatMap((chunk, at): Chunk[] =>
    chunk.kind === 'machine' &&
    tokens[chunk.from]?.word === 'off' &&
    chunks[at - 1]?.kind === 'part' &&
    ends(chunks[at + 1])
      ? [
          { from: chunk.from, to: chunk.from + 1, kind: 'act', act: 'stripped', outcome: null },
          { ...chunk, from: chunk.from + 1 },
        ]
      : [chunk],
  );

/** "I'll put a new cork in": not done yet. */
const settleNotYet: Settle = (chunks, tokens) =>
  chunks.map((chunk) =>
    chunk.kind === 'act' &&
    /^(put|set|fit|hang)$/.test(tokens[chunk.from]?.word ?? '') &&
    WILL.test(tokens[chunk.from - 1]?.word ?? '') &&
    /^(new|another)$/.test(tokens[chunk.to - 1]?.word ?? '')
      ? { from: chunk.from, to: chunk.to, kind: 'remedy', remedy: 'replace' }
      : chunk,
  );

/** Words of what went onto the machine, settled by their company. */
export const FITTING_STEPS: readonly Settle[] = [
  settleDoneUp,
  settleInPlace,
  settleFittedNew,
  settleGoneOn,
  settleNotYet,
  settleWanted,
  settleOffMachine,
];
