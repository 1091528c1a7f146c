import type { NewEvent, Recorded, ShopRecord, StreamId } from './types.js';

/** How a stream's state comes from its events. States are never changed in place: they are shared through a cache. */
export type Fold<State, Event extends NewEvent> = {
  initial: State;
  evolve: (state: State, event: Recorded<Event>) => State;
  /** Whether the event changes what earlier ones mean, so that all are folded again. (Default: none does.) */
  refoldOn?: (event: Recorded<Event>) => boolean;
  /** The state from the whole list. (Default: `evolve` over the list from `initial`.) */
  foldAll?: (events: readonly Recorded<Event>[]) => State;
  /** Checks an event as it is loaded. (Default: it is taken at its word.) */
  parse?: (event: Recorded) => Recorded<Event>;
};

export type Folded<State> = { version: number; state: State };

/** States kept in a process for each record: as many streams as a busy shop talks about in a day. */
const STREAMS_KEPT = 256;
type Kept = { fold: unknown } & Folded<unknown>;
const kept = new WeakMap<ShopRecord['memory'], Map<StreamId, Kept>>();

/**
 * A stream's state. The last one is kept in the process for each stream, as long as the same `fold` object is given: then only
 * newer events are read.
 */
export async function readState<State, Event extends NewEvent>(
  record: ShopRecord,
  stream: StreamId,
  fold: Fold<State, Event>,
): Promise<Folded<State>> {
  const before = recall(record, stream, fold);
  const { version, events } = await loadEvents(record, stream, fold, before?.version ?? 0);
  const isReplaced = before !== undefined && version < before.version;
  const folded =
    before === undefined || isReplaced
      ? await readWhole(record, stream, fold, isReplaced ? undefined : events)
      : { version, state: await advance(record, stream, fold, before, events) };
  remember(record, stream, fold, folded);
  return folded;
}

/** The state after events that follow on from a folded one. Reads the stream when one of them asks for a refold. */
export async function advance<State, Event extends NewEvent>(
  record: ShopRecord,
  stream: StreamId,
  fold: Fold<State, Event>,
  from: Folded<State>,
  events: readonly Recorded<Event>[],
): Promise<State> {
  if (!events.some((event) => fold.refoldOn?.(event))) return events.reduce(fold.evolve, from.state);
  const earlier = await loadEvents(record, stream, fold, 0);
  return foldWhole(fold, [...earlier.events.filter(({ version }) => version <= from.version), ...events]);
}

/** Keeps a state for the next read; an older one does no harm, since newer events are always read. */
export function remember<State, Event extends NewEvent>(
  record: ShopRecord,
  stream: StreamId,
  fold: Fold<State, Event>,
  folded: Folded<State>,
): void {
  const states = kept.get(record.memory) ?? new Map<StreamId, Kept>();
  kept.set(record.memory, states);
  states.delete(stream);
  states.set(stream, { fold, ...folded });
  const oldest = states.keys().next();
  if (states.size > STREAMS_KEPT && !oldest.done) states.delete(oldest.value);
}

/** A stream's events after a version, as the fold's own type. */
export async function loadEvents<State, Event extends NewEvent>(
  record: ShopRecord,
  stream: StreamId,
  fold: Fold<State, Event>,
  afterVersion: number,
): Promise<{ version: number; events: Recorded<Event>[] }> {
  const { version, events } = await record.events(stream, afterVersion);
  return { version, events: fold.parse ? events.map(fold.parse) : (events as Recorded<Event>[]) };
}

async function readWhole<State, Event extends NewEvent>(
  record: ShopRecord,
  stream: StreamId,
  fold: Fold<State, Event>,
  known: readonly Recorded<Event>[] | undefined,
): Promise<Folded<State>> {
  const events = known ?? (await loadEvents(record, stream, fold, 0)).events;
  return { version: events.at(-1)?.version ?? 0, state: foldWhole(fold, events) };
}

function foldWhole<State, Event extends NewEvent>(
  fold: Fold<State, Event>,
  events: readonly Recorded<Event>[],
): State {
  return fold.foldAll ? fold.foldAll(events) : events.reduce(fold.evolve, fold.initial);
}

function recall<State, Event extends NewEvent>(
  record: ShopRecord,
  stream: StreamId,
  fold: Fold<State, Event>,
): Folded<State> | undefined {
  const found = kept.get(record.memory)?.get(stream);
  return found?.fold === fold ? { version: found.version, state: found.state as State } : undefined;
}
