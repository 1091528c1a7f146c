import type { Known } from '../listener.js';
import type { Token } from '../text/tokens.js';
import { wordAt as word } from '../text/word-at.js';
import type { Chunk } from './chunk.js';

const whole = (token: Token | undefined): number | undefined =>
  token?.kind === 'number' && token.ordinal !== true && /^\d{1,3}$/.test(token.text) && (token.value ?? 0) > 0
    ? token.value
    : undefined;

const FOLLOWS =
  /^('s|is|are|has|have|needs|need|wants|want|went|came|back|gone|will|can|to|won't|isn't|sent|fitted|due|looks|was|were|promised|still|not|i|'ll|done|ready|wasn't|shipped|posted|refused|collected)$/;

/** "sent 21, 22 and 25 to": a list of numbers that are moved, not counts of something. */
const moved = (tokens: readonly Token[], at: number): boolean => {
  if (!/^(sent|send|posted|took|dropped|fitted|fit|got|returned|shipped)$/.test(word(tokens, at - 1)))
    return false;
  let end = at;
  while (whole(tokens[end]) !== undefined && /^(,|and|&)$/.test(word(tokens, end + 1))) end += 2;
  return (
    end > at &&
    whole(tokens[end]) !== undefined &&
    /^(to|off|out|back|away|with|for|today)?$/.test(word(tokens, end + 1))
  );
};

/** Item numbers of the strip list: "item 12", "no. 12", "#12", "12's back", "12 and 14 are fitted". */
export function itemNumbers(tokens: readonly Token[], known: Known | undefined): Chunk[] {
  const listed = new Set((known?.items ?? []).map((item) => item.item));
  const found: Chunk[] = [];
  const startsAt = (at: number): boolean =>
    at === 0 ||
    (tokens[at - 1]?.kind === 'mark' && !/^[+-]$/.test(word(tokens, at - 1))) ||
    (/^(and|&|but|then)$/.test(word(tokens, at - 1)) &&
      (found.some((chunk) => chunk.to === at - 1) || tokens[at - 2]?.kind !== 'number'));
  tokens.forEach((token, at) => {
    const item = whole(token);
    if (item === undefined) return;
    const lead = word(tokens, at - 1);
    const dot = lead === '.' && /^(no|nr)$/.test(word(tokens, at - 2)) ? 1 : 0;
    const called = /^(item|items|number|numbers|no|nos|nr|#|num)$/.test(word(tokens, at - 1 - dot));
    const plain =
      /^(no)$/.test(lead) && dot === 0 && tokens[at - 2] !== undefined && tokens[at - 2]?.kind === 'mark';
    if (called && !plain && !/^(bag|box|tin|tray|shelf|drawer)$/.test(word(tokens, at - 2 - dot))) {
      const article = 0;
      found.push({ kind: 'item', from: at - 1 - dot - article, to: at + 1, item });
      return;
    }
    const next = word(tokens, at + 1);
    const subject =
      startsAt(at) &&
      FOLLOWS.test(next) &&
      !(next === 'to' && tokens[at + 2]?.kind === 'number') &&
      !/^(off)$/.test(next);
    const list =
      (startsAt(at) || moved(tokens, at)) &&
      /^(and|&|,)$/.test(next) &&
      whole(tokens[at + 2]) !== undefined &&
      !/^[£$€]$/.test(word(tokens, at + 2));
    const inList = /^(and|&|,)$/.test(lead) && found.some((chunk) => chunk.to === at - 1);
    const object =
      listed.has(item) &&
      /^(send|sent|fitted|ordered|fit|order|took|on|with|of|for|about)$/.test(lead) &&
      !/^[a-z]/.test(next.replace(/^(to|is|are|and|off|back|for|from|has|have|out|on|the)$/, ''));
    if (subject || list || inList || object) found.push({ kind: 'item', from: at, to: at + 1, item });
  });
  return found;
}
