import { stat } from 'node:fs/promises';
import { isDeepStrictEqual } from 'node:util';
import { audit } from '../../../src/desk/audit.js';
import { blockersOf } from '../../../src/job/blockers.js';
import { foldJob } from '../../../src/job/fold.js';
import type { RecordedJobEvent } from '../../../src/job/evolve.js';
import type { JobState } from '../../../src/job/state.js';
import type { Recorded, ShopRecord } from '../../../src/record/types.js';

const RULES = { ownerYesFrom: 50 };

/** Every stream equal to its fold and whole, every file in its place. */
export async function outOfOrder(record: ShopRecord): Promise<readonly string[]> {
  const sizeOf = async (path: string): Promise<number | null> => {
    const found = await stat(path).catch(() => null);
    return found === null ? null : found.size;
  };
  return (await audit(record, sizeOf)).faults;
}

/** A job's state, kept from read to read, is that of all its events folded afresh. */
export function unlikeItsFold(job: string, state: JobState, events: readonly RecordedJobEvent[]): string[] {
  return otherThanFolded(job, state, foldJob(events));
}

/** A state kept from read to read against the same folded afresh. */
export function otherThanFolded(stream: string, state: unknown, folded: unknown): string[] {
  return isDeepStrictEqual(state, folded) ? [] : [`${stream} is not what its events fold to`];
}

/** Nothing waits to be handed on when the shop is at rest. */
export async function leftInOutbox(record: Pick<ShopRecord, 'outbox'>): Promise<string[]> {
  const size = await record.outbox.size();
  return size === 0 ? [] : [`${size} things wait in the outbox though the shop is at rest`];
}

/** No gate was passed while something was in its way; looked at for the events after a version of each job. */
export function passedWhileBlocked(
  job: string,
  events: readonly RecordedJobEvent[],
  after: number,
): string[] {
  return events.flatMap((event, index) => {
    if (event.type !== 'gate-passed' || event.version <= after) return [];
    const { gate } = event.data;
    const blockers = blockersOf(foldJob(events.slice(0, index)), gate, RULES);
    return blockers.length === 0
      ? []
      : [`${job} passed ${gate} with ${blockers[0]?.kind ?? 'something'} in the way`];
  });
}

/** No gate is passed twice without having opened again in between. */
export function passedTwice(job: string, events: readonly Recorded[]): string[] {
  const passed = new Set<string>();
  const undone = new Set(
    events.flatMap(({ type, data }) =>
      type === 'message-undone' ? [(data as { message: string }).message] : [],
    ),
  );
  return events.flatMap(({ type, data, message }) => {
    if (type !== 'gate-passed' && type !== 'gate-reopened') return [];
    if (message !== undefined && undone.has(message)) return [];
    const { gate } = data as { gate: string };
    const again = type === 'gate-passed' && passed.has(gate);
    if (type === 'gate-passed') passed.add(gate);
    else passed.delete(gate);
    return again ? [`${job} passed ${gate} twice`] : [];
  });
}
