import { place } from './append.js';
import type { Fold, Folded } from './fold.js';
import { advance, loadEvents, readState, remember } from './fold.js';
import { addWords } from './words.js';
import type { Pace } from './patience.js';
import { backOff, untilKnown } from './patience.js';
import type { Append, Effect, NewEvent, Recorded, ShopRecord, StreamId } from './types.js';

/** What follows from an append: to be done outside, and when the stream is next due. */
export type Consequences = { effects?: readonly Effect[]; dueAt?: number | null };

export type Decision<Event extends NewEvent, Refusal> =
  | ({ events: readonly Event[]; texts?: Readonly<Record<string, string>> } & Consequences)
  | { refusal: Refusal };

export type CommitOptions<State, Event extends NewEvent, Refusal> = {
  stream: StreamId;
  /** The same for every try, so that a command is carried out once. */
  commandId: string;
  at: number;
  by: string;
  message?: string;
  /** One object for all commits of a kind of stream: states are kept by it. */
  fold: Fold<State, Event>;
  /** Pure: it is asked again when somebody else was quicker. */
  decide: (state: State, version: number) => Decision<Event, Refusal>;
  /** Consequences that are reckoned from the state after the events; they add to and override the decision's own. */
  follow?: (after: State, events: readonly Recorded<Event>[]) => Consequences;
  /** Shown what will have come of it while the append is on its way; again where somebody else was quicker. */
  foresee?: (after: State, events: readonly Recorded<Event>[]) => void;
  pace?: Pace;
};

export type Committed<State, Event extends NewEvent, Refusal> =
  | { outcome: 'done'; state: State; version: number; events: Recorded<Event>[] }
  /** The command was carried out before, maybe by an earlier try of this one; the events are those it gave. */
  | { outcome: 'seen'; state: State; version: number; events: Recorded<Event>[] }
  | { outcome: 'refused'; refusal: Refusal };

/** A stream moved on between reading and appending more often than can be borne. */
export class StreamBusyError extends Error {
  override name = 'StreamBusyError';
}

const CONFLICTS_AT_MOST = 50;

/**
 * Carries out one command on one stream: load, fold, decide, append. Decides again after a conflict, and sends the same append
 * again while its outcome is unknown. Throws StreamBusyError, or the last connection error once patience has run out.
 */
export async function commit<State, Event extends NewEvent, Refusal>(
  record: ShopRecord,
  options: CommitOptions<State, Event, Refusal>,
): Promise<Committed<State, Event, Refusal>> {
  const { stream, commandId, fold, decide, foresee, pace = {} } = options;
  for (let conflicts = 1; conflicts <= CONFLICTS_AT_MOST; conflicts += 1) {
    const before = await untilKnown(() => readState(record, stream, fold), pace);
    const decision = decide(before.state, before.version);
    if ('refusal' in decision) {
      // A command that was carried out before may well be refused by the state that it led to.
      const seen = await untilKnown(() => record.seen(stream, commandId), pace);
      if (seen !== null) return answerSeen(record, options);
      return { outcome: 'refused', refusal: decision.refusal };
    }
    const { append, events, after } = await prepare(record, options, before, decision);
    const appending = untilKnown(() => record.append(append), pace);
    // What can't be foreseen is worded afterwards, where a fault of ours shows.
    const foreseen = Promise.resolve()
      .then(() => foresee?.(after, events))
      .catch(() => undefined);
    const [appended] = await Promise.all([appending, foreseen]);
    switch (appended.outcome) {
      case 'appended':
        remember(record, stream, fold, { version: appended.version, state: after });
        addWords(record, append, appended.version);
        return { outcome: 'done', state: after, version: appended.version, events };
      case 'seen':
        return answerSeen(record, options);
      case 'conflict':
        await backOff(conflicts, { firstMs: 2, mostMs: 100 }, pace);
    }
  }
  throw new StreamBusyError(`${stream} moved on ${CONFLICTS_AT_MOST} times while ${commandId} was decided`);
}

async function prepare<State, Event extends NewEvent, Refusal>(
  record: ShopRecord,
  { stream, commandId, at, by, message, fold, follow, pace = {} }: CommitOptions<State, Event, Refusal>,
  before: Folded<State>,
  decision: Exclude<Decision<Event, Refusal>, { refusal: Refusal }>,
): Promise<{ append: Append; events: Recorded<Event>[]; after: State }> {
  const bare = {
    ...{ stream, expectedVersion: before.version, commandId, events: decision.events, at, by },
    ...(message === undefined ? {} : { message }),
  };
  const events = place(bare) as Recorded<Event>[];
  const after = await untilKnown(() => advance(record, stream, fold, before, events), pace);
  const followed = follow?.(after, events) ?? {};
  const dueAt = followed.dueAt === undefined ? decision.dueAt : followed.dueAt;
  const append: Append = {
    ...bare,
    effects: [...(decision.effects ?? []), ...(followed.effects ?? [])],
    ...(decision.texts === undefined ? {} : { texts: decision.texts }),
    ...(dueAt === undefined ? {} : { dueAt }),
  };
  return { append, events, after };
}

async function answerSeen<State, Event extends NewEvent, Refusal>(
  record: ShopRecord,
  { stream, commandId, fold, pace = {} }: CommitOptions<State, Event, Refusal>,
): Promise<Committed<State, Event, Refusal>> {
  const { state, version } = await untilKnown(() => readState(record, stream, fold), pace);
  const { events } = await untilKnown(() => loadEvents(record, stream, fold, 0), pace);
  return { outcome: 'seen', state, version, events: events.filter(({ command }) => command === commandId) };
}
