import type { z } from 'zod';
import { contactEventSchemas } from '../contact/events.js';
import { jobEventSchemas } from '../job/events.js';
import type { Fold } from '../record/fold.js';
import { readState } from '../record/fold.js';
import type { NewEvent, Recorded, ShopRecord, StreamId } from '../record/types.js';
import { shopEventSchemas } from '../shop/events.js';
import { CONTACT, JOB, SHOP } from './folds.js';

export type Audit = {
  /** Events of each stream. */
  streams: ReadonlyMap<StreamId, number>;
  events: number;
  /** What is not in order, a sentence each; empty where all is. */
  faults: readonly string[];
};

/** Reads a whole record: every event by its schema, every stream folded to its state, every file in its place and size. */
export async function audit(record: ShopRecord, sizeOf: SizeOf): Promise<Audit> {
  const streams = new Map<StreamId, number>();
  const faults: string[] = [];
  for (const stream of await record.streams()) {
    const { events } = await record.events(stream);
    streams.set(stream, events.length);
    faults.push(...gaps(stream, events), ...(await foldFaults(record, stream, events)));
  }
  faults.push(...(await fileFaults(record, streams.keys(), sizeOf)));
  return { streams, events: [...streams.values()].reduce((sum, count) => sum + count, 0), faults };
}

/** The size of a file in bytes; null where there is none. */
type SizeOf = (path: string) => Promise<number | null>;

function gaps(stream: StreamId, events: readonly Recorded[]): string[] {
  return events
    .filter(({ version }, index) => version !== index + 1)
    .slice(0, 1)
    .map(({ version }) => `${stream}: something is missing before event ${version}.`);
}

async function foldFaults(
  record: ShopRecord,
  stream: StreamId,
  events: readonly Recorded[],
): Promise<string[]> {
  const { schemas, fold } = kindOf(stream);
  const unreadable = events.filter(({ type, data }) => !(schemas[type]?.safeParse(data).success ?? false));
  const faults = unreadable.map(
    ({ version, type }) => `${stream}: event ${version} ('${type}') is not in order.`,
  );
  try {
    await readState(record, stream, fold);
  } catch (error) {
    faults.push(
      `${stream}: its state can't be reckoned (${error instanceof Error ? error.message : 'fault'}).`,
    );
  }
  return faults;
}

type Kind = {
  schemas: Readonly<Record<string, z.ZodType>>;
  fold: Fold<unknown, NewEvent>;
};

function kindOf(stream: StreamId): Kind {
  if (stream === 'shop') return { schemas: shopEventSchemas, fold: SHOP as unknown as Kind['fold'] };
  if (stream.startsWith('job-')) return { schemas: jobEventSchemas, fold: JOB as unknown as Kind['fold'] };
  return { schemas: contactEventSchemas, fold: CONTACT as unknown as Kind['fold'] };
}

/** Every file that a job speaks of is known, and lies there in its size. */
async function fileFaults(
  record: ShopRecord,
  streams: Iterable<StreamId>,
  sizeOf: SizeOf,
): Promise<string[]> {
  const faults: string[] = [];
  for (const stream of streams) {
    if (!stream.startsWith('job-')) continue;
    const { state } = await readState(record, stream, JOB);
    for (const kept of Object.values(state.fetched)) {
      if (!('hash' in kept)) continue;
      const meta = await record.files.meta(kept.hash);
      const size = meta === undefined ? null : await sizeOf(record.files.path(kept.hash));
      if (size === null || size !== meta?.size)
        faults.push(`${stream}: the file ${kept.hash} is not there whole.`);
    }
  }
  return faults;
}
