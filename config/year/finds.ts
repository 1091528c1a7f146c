import { BOUGHT, CLEANED, ofTrade, TRADES } from './cast.js';
import type { FirstReturn, JobRun } from './job-run.js';
import type { Dice } from './names.js';
import type { Note } from './notes.js';
import type { World } from './world.js';

type Found = Omit<Extract<Note, { what: 'found' }>, 'at' | 'job'>;

/** What comes in several pieces, of which some may come back before the rest. */
export const PIECES = {
  part: 'engine plates',
  one: 'engine plate',
  find: 'four engine plates',
  trade: 'paint',
};

/** What a machine will turn out to want, drawn as it comes in. Sums are odd, so that they are told apart from others'. */
export function drawFinds(run: JobRun, { dice, suppliers }: Pick<World, 'dice' | 'suppliers'>): void {
  for (const trade of TRADES) {
    const able = ofTrade(suppliers, trade);
    if (able.length === 0) continue;
    const part = dice.pick(trade.parts);
    run.finds.push(
      `${part} ${dice.pick(['rusty', 'worn', 'tired'])}, ${trade.said}, ${dice.whole(20, 139)} quid`,
    );
    run.goings.push({ part, supplier: dice.pick(able), kind: 'sent', first: drawFirst(dice) });
    if (trade.word !== PIECES.trade || !dice.chance(0.5)) continue;
    run.finds.push(`${PIECES.find} rusty, send them for paint, ${dice.whole(20, 139)} quid`);
    const first = dice.chance(0.6) ? 'part' : 'good';
    run.goings.push({ part: PIECES.part, supplier: dice.pick(able), kind: 'sent', first });
  }
  const dealers = ofTrade(suppliers, 'parts');
  for (const part of dealers.length > 0 ? BOUGHT.filter(() => dice.chance(0.5)) : []) {
    run.finds.push(`${part} worn out, replace, ${dice.whole(20, 99)} quid`);
    run.goings.push({ part, supplier: dice.pick(dealers), kind: 'ordered', first: 'good' });
  }
  for (const part of CLEANED.filter(() => dice.chance(0.6))) {
    run.finds.push(`${part} dirty, clean it`);
    run.works.push(part);
  }
}

/** A finding's words begin with the part and end with what is to be done. */
export function foundIn(find: string): Found {
  const part = find.replace(/ (?:rusty|worn|tired|dirty)\b.*$/, '').replace(PIECES.find, PIECES.part);
  const wants = /send (?:it|them)/.test(find) ? 'sent' : find.includes('replace') ? 'ordered' : 'done';
  return { what: 'found', part, wants, cost: Number(/(\d+) quid$/.exec(find)?.[1] ?? 0) };
}

function drawFirst(dice: Dice): FirstReturn {
  const roll = dice.whole(1, 20);
  if (roll <= 2) return 'poor';
  return roll <= 4 ? 'undone' : 'good';
}
