import { orderGraph, type Graph } from '../graph.js';
import { LARGEST_CAPACITY, pack, packInto, type Packing } from './profile.js';
import type { Link, Problem, ProblemFault } from './problem.js';

/** More periods than this are refused: a profile is held in memory. */
export const LONGEST_HORIZON = 1_000_000;
const MOST_ACTIVITIES = 100_000;

/**
 * The problem as seen in one direction of time. Backwards, an activity's successors come before it, and time
 * counts from the end of the schedule.
 */
export type Side = {
  /** All activities, each after those before it. */
  order: Int32Array;
  /** Before activity a: `before[beforeFrom[a] .. beforeFrom[a + 1]]`, with the lag to wait in `lag`. */
  before: Int32Array;
  beforeFrom: Int32Array;
  lag: Int32Array;
  release: Int32Array;
  /** What is free where nothing is scheduled, `words` packed words a period. */
  base: Int32Array;
};

/** A checked problem in typed arrays. */
export type Network = {
  size: number;
  duration: Int32Array;
  /** Packed demand, `words` words an activity. */
  need: Int32Array;
  packing: Packing;
  forward: Side;
  backward: Side;
  /** No schedule of ours is longer. */
  horizon: number;
  /** Capacities are the same in every period, so that the problem can be mirrored in time as it is. */
  steady: boolean;
  /** By resource, the most that it ever has. */
  largest: Int32Array;
};

export type NetworkResult = { ok: true; network: Network } | { ok: false; fault: ProblemFault };

/** Checks a problem and lays it out; or says what is wrong with it. */
export function compileProblem(problem: Problem): NetworkResult {
  const fault = numberFault(problem) ?? linkFault(problem) ?? capacityFault(problem);
  if (fault) return { ok: false, fault };
  const size = problem.activities.length;
  const from = Int32Array.from(problem.links, (link) => link.from);
  const to = Int32Array.from(problem.links, (link) => link.to);
  const ordered = orderGraph(size, from, to);
  if (!ordered.ok) return { ok: false, fault: { kind: 'cycle', activities: ordered.cycle } };
  const horizon = longest(problem);
  if (horizon > LONGEST_HORIZON) {
    return { ok: false, fault: { kind: 'too-large', what: 'periods', atMost: LONGEST_HORIZON } };
  }
  const largest = Int32Array.from(problem.resources, (resource) =>
    typeof resource.capacity === 'number' ? resource.capacity : Math.max(...resource.capacity),
  );
  const packing = pack(largest);
  const steady = problem.resources.every(({ capacity }) => isSteady(capacity));
  const { graph } = ordered;
  const lags = Int32Array.from(problem.links, (link) => link.lag ?? 0);
  const forward: Side = {
    order: graph.order,
    ...gather(graph.incoming, graph.incomingFrom, from, lags),
    release: Int32Array.from(problem.activities, (activity) => activity.release ?? 0),
    base: capacities(problem, packing, horizon, steady),
  };
  const backward: Side = {
    order: graph.order.slice().reverse(),
    ...gather(graph.outgoing, graph.outgoingFrom, to, lags),
    release: new Int32Array(size),
    base: steady ? forward.base : new Int32Array(forward.base.length),
  };
  const duration = Int32Array.from(problem.activities, (activity) => activity.duration);
  const need = new Int32Array(size * packing.words);
  problem.activities.forEach(({ demands }, index) => packInto(packing, demands, need, index * packing.words));
  return {
    ok: true,
    network: { size, duration, need, packing, forward, backward, horizon, steady, largest },
  };
}

/**
 * Lays the calendar out backwards from period `end`, for a backward pass that ends there. Before period 0 there
 * is as much of everything as there ever is, so that a backward pass always finds room: it only gives an order.
 */
export function mirrorCalendar(network: Network, end: number): void {
  if (network.steady) return;
  const { packing, forward, backward, horizon, largest } = network;
  const { words, guards } = packing;
  const most = guards.slice();
  packInto(packing, largest, most, 0);
  for (let period = 0; period < horizon; period += 1) {
    const mirrored = end - 1 - period;
    for (let word = 0; word < words; word += 1) {
      const free = mirrored >= 0 ? forward.base[mirrored * words + word] : most[word];
      backward.base[period * words + word] = free as number;
    }
  }
}

function isSteady(capacity: number | readonly number[]): boolean {
  return typeof capacity === 'number' || capacity.every((units) => units === capacity[0]);
}

function gather(
  links: Graph['incoming'],
  beforeFrom: Int32Array,
  ends: Int32Array,
  lags: Int32Array,
): Pick<Side, 'before' | 'beforeFrom' | 'lag'> {
  const before = links.map((link) => ends[link] as number);
  return { before, beforeFrom, lag: links.map((link) => lags[link] as number) };
}

function capacities(problem: Problem, packing: Packing, horizon: number, steady: boolean): Int32Array {
  const { words, guards } = packing;
  const base = new Int32Array(Math.max(1, horizon) * words);
  const units = new Int32Array(problem.resources.length);
  const given = steady ? 1 : Math.min(horizon, givenPeriods(problem));
  for (let period = 0; period < horizon; period += 1) {
    if (period >= given && period > 0) {
      base.copyWithin(period * words, (period - 1) * words, period * words);
      continue;
    }
    problem.resources.forEach(({ capacity }, resource) => {
      units[resource] = typeof capacity === 'number' ? capacity : capacityIn(capacity, period);
    });
    base.set(guards, period * words);
    packInto(packing, units, base, period * words);
  }
  return base;
}

function capacityIn(capacity: readonly number[], period: number): number {
  return capacity[Math.min(period, capacity.length - 1)] as number;
}

function givenPeriods({ resources }: Problem): number {
  return Math.max(1, ...resources.map(({ capacity }) => (typeof capacity === 'number' ? 1 : capacity.length)));
}

/** After the calendar's end and the last release, one activity after the other always fits. */
function longest(problem: Problem): number {
  const waits = new Int32Array(problem.activities.length);
  for (const { to, lag } of problem.links) waits[to] = Math.max(waits[to] as number, lag ?? 0);
  let periods = givenPeriods(problem) + 1;
  let release = 0;
  problem.activities.forEach((activity, index) => {
    periods += activity.duration + (waits[index] as number);
    release = Math.max(release, activity.release ?? 0);
  });
  return periods + release;
}

function numberFault(problem: Problem): ProblemFault | null {
  const { activities, links, resources } = problem;
  if (activities.length > MOST_ACTIVITIES) {
    return { kind: 'too-large', what: 'activities', atMost: MOST_ACTIVITIES };
  }
  for (const [where, value, most] of numbers(activities, links, resources)) {
    if (!Number.isInteger(value) || value < 0 || value > most) return { kind: 'bad-number', where, value };
  }
  return null;
}

function* numbers(
  activities: Problem['activities'],
  links: readonly Link[],
  resources: Problem['resources'],
): Generator<[where: string, value: number, most: number]> {
  for (const [index, { duration, demands, release, due }] of activities.entries()) {
    yield [`duration of activity ${index}`, duration, LONGEST_HORIZON];
    for (const demand of demands) yield [`demand of activity ${index}`, demand, LARGEST_CAPACITY];
    yield [`release of activity ${index}`, release ?? 0, LONGEST_HORIZON];
    yield [`due date of activity ${index}`, due ?? 0, Number.MAX_SAFE_INTEGER];
  }
  for (const [index, { lag }] of links.entries()) yield [`lag of link ${index}`, lag ?? 0, LONGEST_HORIZON];
  for (const [index, { capacity }] of resources.entries()) {
    const where = `capacity of resource ${index}`;
    if (typeof capacity === 'number') yield [where, capacity, LARGEST_CAPACITY];
    else if (capacity.length === 0) yield [where, Number.NaN, 0];
    else for (const units of capacity) yield [where, units, LARGEST_CAPACITY];
  }
}

function linkFault({ activities, links }: Problem): ProblemFault | null {
  for (const [link, { from, to }] of links.entries()) {
    for (const activity of [from, to]) {
      if (!Number.isInteger(activity) || activity < 0 || activity >= activities.length) {
        return { kind: 'unknown-activity', link, activity };
      }
    }
  }
  return null;
}

/** What holds for ever must be enough for each activity alone: then there is always a schedule. */
function capacityFault({ activities, resources }: Problem): ProblemFault | null {
  for (const [index, { duration, demands }] of activities.entries()) {
    if (duration === 0) continue;
    for (const [resource, demand] of demands.entries()) {
      const capacity = resources[resource]?.capacity ?? 0;
      const atLast = typeof capacity === 'number' ? capacity : capacityIn(capacity, capacity.length);
      if (demand > atLast) return { kind: 'never-enough', activity: index, resource };
    }
  }
  return null;
}
