import { setTimeout as pause } from 'node:timers/promises';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { ShopRecord } from '../../src/record/types.js';
import type { QueueName, Queues } from '../../workers/queues.js';
import { QUEUES } from '../../workers/queues.js';

/** The rehearsal's time as its driver holds it, Unix milliseconds: what the rehearsal server goes by. */
export type RehearsalTime = { now: () => number; set: (instant: number) => void };

/** A time that stands still until it is set. */
export function rehearsalTime(start: number): RehearsalTime {
  let now = start;
  return {
    now: () => now,
    set: (instant) => {
      now = instant;
    },
  };
}

export type DriverParts = {
  time: RehearsalTime;
  record: ShopRecord;
  queues: Queues;
  rehearsal: Pick<Rehearsal, 'quiet' | 'updateCount'>;
  /** How long the shop may take to come to rest, machine time. (Default: 20 s) */
  patienceMs?: number;
};

/** Moves a rehearsal's clock on, never past something that is due or still under way. */
export type Driver = {
  now: () => number;
  /** Resolves when no update, effect or job is waiting or in hand; rejects, saying what is, when patience ends. */
  quiet: () => Promise<void>;
  /** Wakes the shop at each instant at which something is due, then stands at the target. Never goes back. */
  moveTo: (instant: number) => Promise<void>;
  /** From now on `meanwhile` is called while each wake is under way, with its instant. */
  whileWaking: (meanwhile: (at: number) => Promise<void>) => void;
};

/** An instant is woken again where something is still due at it; so often, and it is taken for stuck. */
const WAKES_AT_MOST = 5;
const PATIENCE_MS = 20_000;

/** Makes the driver of a rehearsal. The shared clock must have been set once, before the service started. */
export function createDriver(parts: DriverParts): Driver {
  const { time, record, queues } = parts;
  const rest = makeRest(parts);
  let wakes = 0;
  let meanwhile: (at: number) => Promise<void> = () => Promise.resolve();

  async function stand(instant: number): Promise<void> {
    time.set(instant);
    await record.clock.set(instant);
  }

  async function wake(instant: number): Promise<void> {
    wakes += 1;
    await queues.wake.add('wake', { at: instant }, { jobId: `driven-${instant}-${wakes}` });
    await meanwhile(instant);
    await rest();
  }

  async function moveTo(target: number): Promise<void> {
    if (target < time.now()) throw new Error(`the rehearsal clock never goes back, as to ${iso(target)}`);
    await rest();
    let stuck = 0;
    for (let due = await record.due.next(); due !== null && due <= target; due = await record.due.next()) {
      const instant = Math.max(due, time.now());
      stuck = instant === time.now() ? stuck + 1 : 0;
      if (stuck > WAKES_AT_MOST) throw new Error(`what is due at ${iso(due)} stays due however often woken`);
      await stand(instant);
      await wake(instant);
    }
    await stand(target);
  }

  const whileWaking: Driver['whileWaking'] = (hook) => {
    meanwhile = hook;
  };
  return { now: time.now, quiet: rest, moveTo, whileWaking };
}

const iso = (instant: number): string => new Date(instant).toISOString();

type Waiting = { updates: number; outbox: number; jobs: string[] };

/** What is under way, looked at twice: between outbox and queues an effect can pass the eye once, not both times. */
function makeRest({ record, queues, rehearsal, patienceMs = PATIENCE_MS }: DriverParts): () => Promise<void> {
  const look = async (): Promise<Waiting> => {
    await rehearsal.quiet({ timeoutMs: patienceMs });
    const updates = rehearsal.updateCount;
    const outbox = await record.outbox.size();
    const jobs = await Promise.all(QUEUES.map((name) => inHand(queues, name)));
    return { updates, outbox, jobs: jobs.filter((job) => job !== null) };
  };
  const isAtRest = ({ outbox, jobs }: Waiting): boolean => outbox === 0 && jobs.length === 0;

  return async () => {
    const deadline = performance.now() + patienceMs;
    for (let waitMs = 1; ; waitMs = Math.min(20, waitMs * 2)) {
      const first = await look();
      const second = isAtRest(first) ? await look() : first;
      if (isAtRest(second) && second.updates === first.updates) return;
      if (performance.now() > deadline) throw new Error(`the shop does not come to rest: ${said(second)}`);
      await pause(waitMs);
    }
  };
}

/** Wakes that wait for their minute are machine time's, and no part of a rehearsal; what else is delayed is being retried. */
async function inHand(queues: Queues, name: QueueName): Promise<string | null> {
  const counts = await queues[name].getJobCounts('waiting', 'active', 'prioritized', 'delayed');
  const delayed = name === 'wake' ? 0 : (counts['delayed'] ?? 0);
  const total = (counts['waiting'] ?? 0) + (counts['active'] ?? 0) + (counts['prioritized'] ?? 0) + delayed;
  return total === 0 ? null : `${name}: ${total}${delayed > 0 ? ` (${delayed} to be tried again)` : ''}`;
}

const said = ({ outbox, jobs }: Waiting): string => [`outbox: ${outbox}`, ...jobs].join(', ');
