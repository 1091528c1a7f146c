import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordsOf } from '../text/word-at.js';

const RODE = /^(took|taken|had|ran|rode|ridden|gave|given|run)$/;
const WHAT = /^(her|it|him|them)$/;
const WAY = /^(up|down|along|over|round|around|through|out|about)$/;
/** Where work goes, not a ride. */
const ERRAND =
  /^(shop|workshop|yard|stairs|post|office|house|garage|van|car|works|bench|stand|frame|dealer|town)$/;

/** "took her up the bypass", "had the Quenby round the houses": a ride, whatever road it went. */
export function settleRide(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const out: Chunk[] = [];
  for (let at = 0; at < chunks.length; at += 1) {
    const end = rideEnd(chunks, at, tokens);
    const from = chunks[at]?.from ?? 0;
    if (end === null) {
      out.push(chunks[at] as Chunk);
      continue;
    }
    const machine = chunks.slice(at, end).filter((chunk) => chunk.kind === 'machine');
    out.push(
      { from, to: chunks[end - 1]?.to ?? from, kind: 'act', act: 'tested', outcome: null },
      ...machine,
    );
    at = end - 1;
  }
  return out;
}

/** The words of a chunk, "" beyond the last. */
const saidBy = (chunks: readonly Chunk[], tokens: readonly Token[], at: number): string => {
  const chunk = chunks[at];
  return chunk === undefined ? '' : wordsOf(tokens, chunk);
};

const isMiles = (chunk: Chunk | undefined): boolean => chunk?.kind === 'measure' && chunk.unit === 'mi';

/** The chunk after a ride's words that begin at `at`; null where none do. */
function rideEnd(chunks: readonly Chunk[], at: number, tokens: readonly Token[]): number | null {
  const said = (index: number): string => saidBy(chunks, tokens, index);
  const verb = said(at).split(' ');
  const told = chunks[at];
  if (
    told?.kind === 'act' &&
    told.act === 'tested' &&
    told.outcome === null &&
    verb.some((word) => RIDDEN.test(word))
  ) {
    const end = farEnd(chunks, at + 1, tokens);
    return end > at + 1 ? end : null;
  }
  if (!RODE.test(verb[0] ?? '')) return null;
  let next = at + 1;
  const going = verb.length === 3 && WHAT.test(verb[1] ?? '') && WAY.test(verb[2] ?? '');
  if (verb.length === 1) {
    const what = chunks[next];
    if (what?.kind === 'article' && chunks[next + 1]?.kind === 'machine') next += 1;
    else if (!(what?.kind === 'machine' || WHAT.test(said(next)))) return null;
    next += 1;
  } else if (!going && (verb.length > 2 || !WHAT.test(verb[1] ?? ''))) return null;
  const test = chunks[next];
  if (!going && test?.kind === 'act' && test.act === 'tested' && test.outcome === null) return next + 1;
  // "gave her a run up the lane"
  const gone = /^(a|another|a good|a quick)$/.test(said(next)) && OUTING.test(said(next + 1));
  if (gone) next += 2;
  const far = farEnd(chunks, next, tokens);
  if (!going && !gone && !WAY.test(said(next))) return null;
  const out = verb[2] === 'out' || said(next) === 'out';
  while (WAY.test(said(next))) next += 1;
  if (gone) return Math.max(far, farEnd(chunks, next, tokens));
  const miles = farEnd(chunks, next, tokens);
  if (out && chunks.slice(next, miles).some(isMiles)) return miles;
  // "out twenty mile round the reservoir", where "mile round the" tells of a ride by itself.
  const round = chunks[next + 1];
  if (out && chunks[next]?.kind === 'count' && round?.kind === 'act' && round.act === 'tested')
    return farEnd(chunks, next + (/^(part|word)$/.test(chunks[next + 2]?.kind ?? '') ? 3 : 2), tokens);
  if (out && chunks[next]?.kind === 'break' && isMiles(chunks[next + 1])) return next;
  if (out && /^(on|over|round|to|into)$/.test(said(next)) && chunks[next + 1]?.kind === 'article') next += 1;
  const road = chunks[next + 1];
  if (chunks[next]?.kind !== 'article' || !(road?.kind === 'word' || road?.kind === 'machine')) return null;
  if (ERRAND.test(said(next + 1)) || !/^\p{L}/u.test(said(next + 1))) return null;
  return farEnd(chunks, next + 2, tokens);
}

const RIDDEN = /^(road|rd|ride|rode|ridden|ran|run|spin)$/;
const OUTING = /^(run|spin|blast|ride|thrash|go|turn|gallop|airing|outing)$/;
const TOWARDS = /^(round|over|up|down|along|through|across|past|via|to|into|out to|as far as|on|about)$/;

/** How far a ride went: "for eleven miles", "round the reservoir and back", "with the missus in the chair". */
function farEnd(chunks: readonly Chunk[], from: number, tokens: readonly Token[]): number {
  const said = (index: number): string => saidBy(chunks, tokens, index);
  let next = from;
  for (;;) {
    const led = /^(for|about|a good|some|nearly|of)$/.test(said(next)) ? 1 : 0;
    const way = TOWARDS.test(said(next)) ? 1 : 0;
    const riders = said(next) === 'with' && chunks[next + 1]?.kind === 'article';
    const road = chunks[next + way + 1];
    if (isMiles(chunks[next + led])) next += led + 1;
    else if (/^(and|there and)$/.test(said(next)) && said(next + 1) === 'back') next += 2;
    else if (/^(there and back|and back)$/.test(said(next))) next += 1;
    else if (
      way === 1 &&
      chunks[next + 1]?.kind === 'article' &&
      road !== undefined &&
      /^(word|part|machine)$/.test(road.kind) &&
      !ERRAND.test(said(next + 2))
    )
      next += ROAD.test(said(next + 3)) ? 4 : 3;
    else if (way === 1 && /^(town|home|work|market)$/.test(said(next + 1)) && said(next + 2) === 'and')
      next += 2;
    else if (riders && RIDERS.test(said(next + 2))) {
      next += 3;
      if (/^(in|on)$/.test(said(next)) && chunks[next + 1]?.kind === 'article') next += 3;
    } else return Math.min(next, chunks.length);
  }
}

const ROAD = /^(road|lane|lanes|hill|tops|common|moor|bypass|track|roundabout|bridge|straight)$/;
const RIDERS = /^(missus|wife|lad|boy|dog|passenger|nipper|daughter|son|owner|boss)$/;

/** "15 mile, horn's loose": how far a ride went is no reading of what is found on it. */
export function settleMiles(chunks: readonly Chunk[]): Chunk[] {
  const rode = chunks.some((chunk) => chunk.kind === 'act' && chunk.act === 'tested');
  return rode
    ? chunks.map((chunk) =>
        isMiles(chunk) ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'far' } : chunk,
      )
    : [...chunks];
}
