import { readMessage } from '../read-message.js';
import type { Instruction } from './instruction.js';
import { NUMBERS, numbersIn } from './numbers.js';
import type { Hearer } from './read-instruction.js';

const DONE =
  'done|finished|sorted|fixed|cured|straightened|cleaned(?: up)?|made(?: up)?|repaired|mended|welded(?: up)?|brazed(?: up)?|soldered(?: up)?|polished|re-?bushed|re-?sealed|freed(?: off| up)|trued(?: up)?|lapped(?: in)?|dressed';

/** Denied, still to do, or done badly. */
const NOT_DONE =
  /\b(?:not|never|nothing|to be|to have|to get|needs?|wants?|wanted|should|must|can|could|would|will|has to|have to|got to|going to|being|getting|get|badly|poorly|half)\b|n't\b|'ll\b/i;

/** Work in the shop told as done ('12 done', 'straightened the footrest'), faults found and put right, checks done. */
export function readWorkInstruction(text: string, hearer: Hearer): Instruction | null {
  return readFault(text) ?? readCheck(text) ?? readDone(text, hearer);
}

function readFault(text: string): Instruction | null {
  const cleared =
    /^fault(?: (\d{1,2}))?(?: is|'s)? (?:cleared|fixed|cured|sorted|put right|done|gone|mended)$/i.exec(text);
  if (cleared) return { kind: 'clear-fault', fault: cleared[1] === undefined ? null : Number(cleared[1]) };
  const found = /^(?:new )?fault:? (?!\d)(.{3,})$/i.exec(text);
  return found ? { kind: 'find-fault', text: found[1] ?? '' } : null;
}

const CHECKS_DONE = new RegExp(`^checks? (${NUMBERS})(?: are| is)?(?: all)? (?:done|ok|good|set)$`, 'i');

function readCheck(text: string): Instruction | null {
  const several = CHECKS_DONE.exec(text)?.[1];
  if (several !== undefined) return { kind: 'do-checks', checks: numbersIn(several) };
  const check =
    /^(?:check:? )(.{3,60}?)(?: is| are)?(?: done| set| ok| good)?$/i.exec(text) ??
    /^(.{3,40}?) (?:checked|set|set up|adjusted)(?: ok)?$/i.exec(text);
  return check ? { kind: 'do-check', words: check[1] ?? '' } : null;
}

const NUMBER_DONE = new RegExp(
  `^(?:item |no\\.? ?)?(\\d{1,3})(?: is|'s|'s been| has been)? (?:now )?(?:all )?(?:${DONE})$`,
  'i',
);
const DID_NAMED = new RegExp(`^(?:i've |i have |just )?(?:${DONE}) (?:the |both )?(.{3,40})$`, 'i');
const NAMED_DONE = new RegExp(
  `^(?:the )?(.{3,40}?)(?: is| are|'s|'s been| has been| have been)? (?:now )?(?:all )?(?:${DONE})$`,
  'i',
);

function readDone(text: string, { today, known }: Hearer): Instruction | null {
  const number = NUMBER_DONE.exec(text);
  if (number) return { kind: 'work-done', item: Number(number[1]), part: null, place: [] };
  const named = DID_NAMED.exec(text) ?? NAMED_DONE.exec(text);
  if (!named || NOT_DONE.test(text)) return null;
  const [only, ...more] = readMessage(named[1] ?? '', { today, known }).items;
  if (!only || more.length > 0 || only.part === null) return null;
  return { kind: 'work-done', item: only.item, part: only.part, place: only.place };
}
