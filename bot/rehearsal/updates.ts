import type { Update } from 'grammy/types';
import { conflict } from './faults.js';
import { LIMITS } from './limits.js';
import type { UpdateBody, UpdateKind } from './bench-message.js';

/** What a poller asks for. `now` and the queue's times are Unix seconds by the rehearsal's clock. */
export type Poll = {
  offset: number;
  limit: number;
  timeoutSeconds: number;
  allowed: readonly UpdateKind[] | null;
  now: number;
  /** Aborted when the poller hangs up or the server stops. */
  signal: AbortSignal;
};

/** The updates of one bot, waiting to be confirmed. */
export type UpdateQueue = {
  /** Queues an update for the bot; null where the bot did not ask for this kind. */
  push: (body: UpdateBody, now: number) => Update | null;
  /** Long polling: what waits, or what comes within the time-out. Throws 409 in the poller that another one ousts. */
  poll: (poll: Poll) => Promise<Update[]>;
  /** Queues an update once more though it may be confirmed; false where there never was one. */
  redeliver: (updateId: number) => boolean;
  /** Updates neither confirmed nor expired. */
  pending: () => number;
  /** Whether a poller waits for updates at this moment. */
  polled: () => boolean;
  /** Forgets what waits (deleteWebhook with drop_pending_updates). */
  drop: () => void;
  /** How many updates there ever were. */
  count: () => number;
};

type Entry = { update: Update; at: number; again: boolean };
type Waiter = { deliver: () => void; oust: () => void };

/** Not sent unless asked for by name. Source: Bot API documentation, getUpdates.allowed_updates. */
const ONLY_ON_REQUEST: readonly UpdateKind[] = ['chat_member', 'message_reaction', 'message_reaction_count'];

/**
 * Makes the queue of one bot.
 * @param firstId number of the first update; they run on from there
 * @param changed called after each change
 */
export function createUpdateQueue(firstId: number, changed: () => void): UpdateQueue {
  let entries: Entry[] = [];
  const history = new Map<number, Entry>();
  let nextId = firstId;
  let allowed: readonly UpdateKind[] = [];
  let waiter: Waiter | null = null;

  const add = (entry: Entry): void => {
    entries = [...entries.filter((other) => other !== entry), entry].sort(
      (one, other) => one.update.update_id - other.update.update_id,
    );
    waiter?.deliver();
    changed();
  };
  const wanted = (kind: string): boolean =>
    allowed.length === 0
      ? !ONLY_ON_REQUEST.some((other) => other === kind)
      : allowed.some((other) => other === kind);
  const take = (limit: number): Update[] =>
    entries.slice(0, limit).map((entry) => {
      entry.again = false;
      return entry.update;
    });
  const confirm = (poll: Poll): void => {
    const { offset } = poll;
    const fresh = entries.filter((entry) => entry.again || entry.at > poll.now - LIMITS.updateLifeSeconds);
    entries =
      offset < 0
        ? fresh.slice(offset)
        : fresh.filter((entry) => entry.again || entry.update.update_id >= offset);
    changed();
  };
  const wait = (poll: Poll): Promise<Update[]> =>
    new Promise((resolve, reject) => {
      const end = (settle: () => void): void => {
        clearTimeout(timer);
        poll.signal.removeEventListener('abort', giveUp);
        if (waiter === mine) waiter = null;
        settle();
      };
      const giveUp = (): void => end(() => resolve([]));
      const seconds = Math.min(poll.timeoutSeconds, LIMITS.longestPollSeconds);
      const timer = setTimeout(giveUp, seconds * 1000);
      const mine: Waiter = {
        deliver: () => end(() => resolve(take(poll.limit))),
        oust: () => end(() => reject(conflict())),
      };
      poll.signal.addEventListener('abort', giveUp);
      waiter = mine;
      changed();
    });

  return {
    push: (body, now) => {
      const kind = Object.keys(body)[0] ?? '';
      if (!wanted(kind)) return null;
      const entry: Entry = { update: { update_id: nextId, ...body }, at: now, again: false };
      nextId += 1;
      history.set(entry.update.update_id, entry);
      add(entry);
      return entry.update;
    },
    poll: async (poll) => {
      waiter?.oust();
      if (poll.allowed !== null) allowed = poll.allowed;
      confirm(poll);
      if (entries.length > 0 || poll.timeoutSeconds <= 0) return take(poll.limit);
      return poll.signal.aborted ? [] : wait(poll);
    },
    redeliver: (updateId) => {
      const entry = history.get(updateId);
      if (entry === undefined) return false;
      entry.again = true;
      add(entry);
      return true;
    },
    pending: () => entries.length,
    polled: () => waiter !== null,
    drop: () => {
      entries = [];
      changed();
    },
    count: () => history.size,
  };
}
