import type { JobRun } from './job-run.js';
import type { PutRight } from './ledger.js';
import { countOne } from './ledger.js';
import type { World } from './world.js';
import { mechanicsMessage } from './telling.js';
import { noteWork } from './world.js';

const SLIPS = ['undone', 'within', 'later', 'not-the-front', 'edited'] as const;

/** Something is said wrongly of a machine, and taken back or put right; each kind once at most. */
export async function slip(world: World, run: JobRun): Promise<void> {
  const { dice, telling, ledger } = world;
  const kind = dice.pick(SLIPS);
  const mechanic = dice.pick(world.mechanics);
  if (run.slips.has(kind)) return;
  run.slips.add(kind);
  const say = (words: string): Promise<number> => {
    run.said.push(words);
    return telling.say(mechanic, `on the ${run.title}: ${words}`);
  };
  const put = (part: string, meant: PutRight['meant'], not: PutRight['not']): void => {
    ledger.putRight.push({ run, part, meant, not });
    noteWork(world, run, `${meant} ${part}`);
  };
  switch (kind) {
    case 'undone': {
      const part = 'left gaiter';
      const message = mechanicsMessage(mechanic, await say(`${part} torn, straighten it`));
      ledger.takenBack.push({ run, part, message });
      if (await telling.press(mechanic, { do: 'undo', message })) return countOne(ledger, 'slips undone');
      ledger.breaches.push(`${run.title}: nothing takes back what was said of the ${part}`);
      return;
    }
    case 'within':
      countOne(ledger, 'corrections within a message');
      await say('left footrest bent, sorry I mean the right, straighten it');
      return put('footrest', 'right', 'left');
    case 'later':
      countOne(ledger, 'corrections by a later message');
      await say('front mudguard stay bent, straighten it');
      await telling.say(mechanic, 'no, that’s the rear mudguard stay');
      return put('mudguard stay', 'rear', 'front');
    case 'not-the-front':
      countOne(ledger, 'corrections by a later message');
      await say('front number plate bent, straighten it');
      await telling.say(mechanic, 'not the front, the rear');
      return put('number plate', 'rear', 'front');
    case 'edited': {
      countOne(ledger, 'corrections by editing');
      const message = await say('left silencer bracket bent, straighten it');
      const words = `on the ${run.title}: right silencer bracket bent, straighten it`;
      await telling.edit(mechanic, message, words);
      return put('silencer bracket', 'right', 'left');
    }
  }
}
