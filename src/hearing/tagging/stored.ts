import { joinTokens, tokenise, type Token } from '../text/tokens.js';
import type { Chunk } from './chunk.js';

const CONTAINER =
  /^(bag|box|tin|tray|shelf|drawer|bucket|jar|tub|crate|bin|rack|cupboard|pot|envelope|locker|carton|basket|pigeonhole|cabinet|hook|tote|pouch|sack|trunk|bags|boxes|trays|bench|peg|case|loft|container|can|canister|chest|caddy|pallet|windowsill|sill|satchel|holdall|bowl|dish|tubs|drawers|shelves|tins)$/;
/** Containers that a number makes certain; the others need "in the …" before them. */
const NUMBERED =
  /^(bag|box|tin|tray|shelf|drawer|bucket|jar|tub|crate|bin|rack|cupboard|pot|envelope|locker|carton|basket|cabinet|tote|hook|peg)$/;
const KIND =
  /^(small|big|large|little|blue|red|green|yellow|white|black|clear|grey|orange|pink|brown|top|bottom|middle|left|right|lower|upper|old|biscuit|ice|cream|plastic|cardboard|wooden|metal|sandwich|zip|ziplock|freezer|parts|tobacco|jam|coffee|margarine|second|third|first|far|end|back|shoe|magnetic|baking|tea|sweet|paint|zip-lock|lock|toffee|chocolate|egg|banana|same|wee|steel|glass|resealable|new|bolt|bolts|fasteners|fastener|nut|nuts|spare|spares|cake)$/;

const isCode = (token: Token | undefined): boolean =>
  token !== undefined &&
  ((token.kind === 'number' && token.ordinal !== true && /^\d{1,4}$/.test(token.text)) ||
    /^[A-Z]\d{0,3}$/.test(token.text) ||
    /^[b-hj-z]$/.test(token.word));

/** "in the pill tin": a word of any kind between the article and the container. */
const leadsIn = (tokens: readonly Token[], at: number): boolean =>
  tokens[at]?.kind === 'word' &&
  /^(the|a|an|my|his)$/.test(tokens[at - 1]?.word ?? '') &&
  /^(in|into)$/.test(tokens[at - 2]?.word ?? '');

/** Where a part was put: "bag 14", "small tin", "box A3", "top shelf". */
export function storedPlaces(tokens: readonly Token[]): Chunk[] {
  const found: Chunk[] = [];
  tokens.forEach((token, at) => {
    if (token.kind !== 'word' || !CONTAINER.test(token.word)) return;
    let from = at;
    while (from > 0 && KIND.test(tokens[from - 1]?.word ?? '') && tokens[from - 1]?.kind === 'word')
      from -= 1;
    let to = at + 1;
    const label = /^(number|no|labelled|marked)$/.test(tokens[to]?.word ?? '') ? 1 : 0;
    const code = isCode(tokens[to + label]) || (tokens[to]?.word === 'one' && NUMBERED.test(token.word));
    if (code) {
      to += label + 1;
      const joined = tokens[to]?.before === '';
      if (tokens[to - 1]?.kind === 'word' && tokens[to]?.kind === 'number' && joined) to += 1;
      else if (tokens[to - 1]?.kind === 'number' && /^[a-z]$/i.test(tokens[to]?.text ?? '') && joined)
        to += 1;
    }
    for (
      let free = 0;
      free < 2 &&
      from > 0 &&
      !/^(the|a|an|my|in|into|on|his)$/.test(tokens[from - 1]?.word ?? '') &&
      leadsIn(tokens, from - 1);
      free += 1
    )
      from -= 1;
    const lead = tokens[from - 1]?.word ?? '';
    const article = /^(the|a|an|my|his|another|that)$/.test(lead) ? 1 : 0;
    const inside = /^(in|into|on|onto|under|to)$/.test(tokens[from - 1 - article]?.word ?? '');
    // The left pot of a twin is a cylinder.
    if (!code && /^pots?$/.test(token.word) && /^(left|right|front|rear)$/.test(tokens[at - 1]?.word ?? ''))
      return;
    const certain =
      (code && NUMBERED.test(token.word)) ||
      (inside && (from < at || NUMBERED.test(token.word)) && token.word !== 'case');
    const named = from < at && /^(tin|bag|tray|tub|jar|shelf|drawer|bucket)$/.test(token.word);
    if (!certain && !named) return;
    const stored = joinTokens(
      tokens
        .slice(from, to)
        .map((one) => ({ ...one, text: one.kind === 'word' ? one.text.toLowerCase() : one.text })),
    );
    const codeText = code ? joinTokens(tokens.slice(to - 1, to)) : '';
    const text =
      code && /^[A-Z]/.test(codeText)
        ? `${stored.slice(0, stored.length - codeText.length)}${codeText}`
        : stored;
    const start = inside ? from - 1 - article : from - article;
    const last = found.at(-1);
    const same = /^same /.test(text) && last?.kind === 'stored' ? last.stored : text;
    found.push({ kind: 'stored', from: Math.max(0, start), to, stored: same });
  });
  return found;
}

/** The bag, box, tin or shelf that a text names ('what's in bag 22?'); null where it names none, or several. */
export function containerNamed(text: string): string | null {
  const [only, ...more] = storedPlaces(tokenise(text)).flatMap((chunk) =>
    chunk.kind === 'stored' ? [chunk.stored] : [],
  );
  return only !== undefined && more.length === 0 ? only : null;
}
