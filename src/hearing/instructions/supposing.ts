import { readMessage } from '../read-message.js';
import { figures } from '../text/number-words.js';
import { joinTokens, tokenise } from '../text/tokens.js';
import type { Instruction } from './instruction.js';
import type { Hearer } from './read-instruction.js';

const WORKING_DAYS = { day: 1, week: 5, fortnight: 10, month: 21 } as const;

/** 'What if the plater is two weeks late?', 'what if 12 comes a week early?', 'what if we buy the mudguards new?'. */
export function readSupposing(text: string, hearer: Hearer): Instruction | null {
  const supposed = /^(?:and )?(?:what if|suppose|supposing|say) (.+?)\??$/i.exec(text)?.[1];
  if (supposed === undefined) return null;
  const said = joinTokens(figures(tokenise(supposed)));
  return readLate(said, hearer) ?? readBoughtNew(said, hearer);
}

function readLate(said: string, hearer: Hearer): Instruction | null {
  const late =
    /^(?:the )?(.{2,60}?)(?: (?:is|are|were|was|comes?|came|turns? up|runs?|gets? here|slips?))?(?: back)?(?: by)? (?:(?:a|an|about)? ?)?(\d+(?:\.\d+)?)? ?(?:working )?(days?|weeks?|fortnights?|months?) ?(late|later|early|earlier|over)?$/i.exec(
      said,
    );
  if (!late) return null;
  const [, who = '', many = '1', unit = '', way = 'late'] = late;
  const days = Math.round(Number(many) * WORKING_DAYS[unitOf(unit)]);
  const by = /^early|^earlier/i.test(way) ? -days : days;
  const item = /^(?:item |no\.? ?)?(\d{1,3})$/i.exec(who)?.[1];
  if (item !== undefined)
    return { kind: 'suppose', item: Number(item), part: null, place: [], supplier: null, change: { by } };
  const part = partIn(who, hearer);
  return part === null
    ? { kind: 'suppose', item: null, part: null, place: [], supplier: who, change: { by } }
    : { kind: 'suppose', ...part, supplier: null, change: { by } };
}

function readBoughtNew(said: string, hearer: Hearer): Instruction | null {
  const bought =
    /^(?:we |i |you )?(?:buy|bought|get|got|order|ordered|have|had|replace|replaced)(?: in)? (?:a |an |some )?(?:new )?(.{2,50}?)(?: new)?(?: instead)?$/i.exec(
      said,
    );
  const part = bought && /\bnew\b|\breplaced?\b/i.test(said) ? partIn(bought[1] ?? '', hearer) : null;
  return part === null ? null : { kind: 'suppose', ...part, supplier: null, change: { boughtNew: true } };
}

function partIn(
  words: string,
  { today, known }: Hearer,
): Pick<Extract<Instruction, { kind: 'suppose' }>, 'item' | 'part' | 'place'> | null {
  const [only, ...more] = readMessage(words, { today, known }).items;
  if (!only || more.length > 0 || (only.part === null && only.item === null)) return null;
  return { item: only.item, part: only.part, place: only.place };
}

function unitOf(unit: string): keyof typeof WORKING_DAYS {
  const singular = unit.toLowerCase().replace(/s$/, '');
  return singular === 'week' || singular === 'fortnight' || singular === 'month' ? singular : 'day';
}
