import type { Dice } from './names.js';
import type { World } from './world.js';

const FAULTS = ['server-errors', 'too-many', 'cut-off', 'said-again'] as const;
export type Fault = (typeof FAULTS)[number];

/** Something fails under the day's talk; all of it passes by itself. */
export function strike({ rehearsal }: Pick<World, 'rehearsal'>, dice: Dice): Fault {
  const fault = dice.pick(FAULTS);
  switch (fault) {
    case 'server-errors':
      rehearsal.fail({ method: 'sendMessage', kind: '500', times: dice.whole(1, 2) });
      break;
    case 'too-many':
      rehearsal.fail({ method: 'sendMessage', kind: '429', retryAfter: 1, times: 1 });
      break;
    case 'cut-off':
      rehearsal.fail({ method: 'sendMessage', kind: 'drop', times: 1 });
      break;
    case 'said-again':
      rehearsal.redeliver(rehearsal.updateCount);
  }
  return fault;
}
