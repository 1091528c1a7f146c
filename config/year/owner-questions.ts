import { DateTime } from 'luxon';
import { instant, ZONE } from '../demo/shop-time.js';
import type { World } from './world.js';

const QUESTIONS = [
  'How is it coming on?',
  'When will it be ready?',
  'What have you spent?',
  'how much so far?',
  'any news?',
] as const;
const ASKS = 0.04;

/** Of an evening, and on Sundays too, owners ask after their machines: an answer comes at any hour. */
export async function askOfAnEvening(world: World, day: string): Promise<void> {
  const { dice, stage, telling, ledger } = world;
  const isSunday = DateTime.fromISO(day, { zone: ZONE }).weekday === 7;
  const at = instant(day, isSunday ? '11:15' : '20:40');
  for (const run of world.jobs) {
    const { chat } = run.owner;
    if (chat === null || run.stage === 'to-come' || !dice.chance(ASKS)) continue;
    if (stage.driver.now() < at) await stage.driver.moveTo(at);
    const message = await telling.say(chat, dice.pick(QUESTIONS));
    ledger.asked.push({ run, message });
  }
}
