import type { Cost } from '../../hearing/reading.js';
import type { JobCommand, Target } from '../commands.js';
import { resolve } from '../resolve.js';
import type { JobState } from '../state.js';

type OfItem = Extract<JobCommand, { target: Target }>;

/** A command said of several items at once, as one for each of them; any other as it is. */
export function forEach(state: JobState, command: JobCommand): JobCommand[] {
  if (!isOfItem(command)) return [command];
  const found = resolve(state, command.target);
  if (found.kind !== 'each') return [command];
  return found.items.map(({ number }) => ({
    ...command,
    ...('cost' in command ? { cost: share(command.cost, found.items.length) } : {}),
    ...('count' in command ? { count: null } : {}),
    target: { item: number, part: null, called: null, place: [], count: null },
  })) as JobCommand[];
}

/** A note or a fault said of several things is still one. */
function isOfItem(command: JobCommand): command is OfItem {
  return 'target' in command && command.type !== 'find-fault' && command.type !== 'keep-note';
}

/** A price for the lot is shared out, to the penny. */
function share(cost: Cost | null, among: number): Cost | null {
  if (cost === null || cost.each) return cost;
  return { ...cost, amount: Math.round((cost.amount / among) * 100) / 100 };
}
