import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';

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

/** The chunk after a ride's words that begin at `at`; null where none do. */
function rideEnd(chunks: readonly Chunk[], at: number, tokens: readonly Token[]): number | null {
  const said = (index: number): string => {
    const chunk = chunks[index];
    return chunk === undefined
      ? ''
      : tokens
          .slice(chunk.from, chunk.to)
          .map(({ word }) => word)
          .join(' ');
  };
  const verb = said(at).split(' ');
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
  if (/^(a|another)$/.test(said(next)) && /^(run|spin|blast|ride|thrash|go)$/.test(said(next + 1))) next += 2;
  if (!going && !WAY.test(said(next))) return null;
  while (WAY.test(said(next))) next += 1;
  const road = chunks[next + 1];
  if (chunks[next]?.kind !== 'article' || !(road?.kind === 'word' || road?.kind === 'machine')) return null;
  if (ERRAND.test(said(next + 1)) || !/^\p{L}/u.test(said(next + 1))) return null;
  return next + 2;
}
