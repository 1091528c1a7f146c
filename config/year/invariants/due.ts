import { dueContext } from '../../../src/desk/due-context.js';
import { foldJob } from '../../../src/job/fold.js';
import type { RecordedJobEvent } from '../../../src/job/evolve.js';
import { nextDueAfter } from '../../../src/job/due.js';
import { policyOf } from '../../../src/shop/state.js';
import type { Policy } from '../../../src/shop/policy.js';
import { CONTACT, SHOP } from '../../../src/desk/folds.js';
import { readState } from '../../../src/record/index.js';
import type { ShopRecord, StreamId } from '../../../src/record/types.js';

/** A job at rest: when it is next to be woken for what is due and unsaid, as reckoned from its events and as the record has it. */
export type Place = { job: string; reckoned: number | null; indexed: number | null };

/** Every job's place in the due index against what its events give, at an instant at which all that was due has been said. */
export async function placesOf(record: ShopRecord, fromFile: Policy, now: number): Promise<Place[]> {
  const { state: shop } = await readState(record, 'shop', SHOP);
  const policy = policyOf(shop, fromFile);
  const people = await record.people.all();
  const indexed = new Map(
    (await record.due.until(Number.MAX_SAFE_INTEGER)).map(({ stream, at }) => [stream, at]),
  );
  const streams = (await record.streams()).filter((stream) => stream.startsWith('job-'));
  return Promise.all(
    streams.map(async (stream) => {
      const job = stream.slice('job-'.length);
      const state = foldJob((await record.events(stream)).events as unknown as RecordedJobEvent[]);
      const contact = async (person: string) =>
        (await readState(record, `contact-${person}` as StreamId, CONTACT)).state;
      const context = await dueContext({ job, state, shop, policy, people, contact });
      return { job, reckoned: nextDueAfter(state, context, now), indexed: indexed.get(stream) ?? null };
    }),
  );
}

/** Jobs that the due index would have woken later than what is next due in them, or never, a sentence each; sooner does no harm. */
export function wokenTooLate(places: readonly Place[]): string[] {
  return places
    .filter(({ reckoned, indexed }) => reckoned !== null && (indexed === null || indexed > reckoned))
    .map(
      ({ job, reckoned, indexed }) =>
        `${job} has something due at ${iso(reckoned)} and is woken ${indexed === null ? 'never' : `at ${iso(indexed)}`}`,
    );
}

const iso = (at: number | null): string => (at === null ? 'no time' : new Date(at).toISOString());
