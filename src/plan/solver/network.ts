import { orderGraph, type Graph } from '../graph.js';
import { LONGEST_HORIZON, capacityIn, problemFault } from './faults.js';
import type { Baseline, Problem, ProblemFault } from './problem.js';
import { pack, packInto, type Packing } from './profile.js';

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
  /** The last release time, or start in the baseline (one beyond all sense brought back). */
  latest: number;
  /** Capacities are the same in every period, so that the problem can be mirrored in time as it is. */
  steady: boolean;
  /** By resource, the most that it ever has. */
  largest: Int32Array;
};

export type NetworkResult = { ok: true; network: Network } | { ok: false; fault: ProblemFault };

/**
 * Checks a problem and lays it out, with room for activities held to their starts in a baseline; or says what is
 * wrong with it.
 */
export function compileProblem(problem: Problem, baseline: Baseline = []): NetworkResult {
  const fault = problemFault(problem);
  if (fault) return { ok: false, fault };
  const size = problem.activities.length;
  const from = Int32Array.from(problem.links, (link) => link.from);
  const to = Int32Array.from(problem.links, (link) => link.to);
  const ordered = orderGraph(size, from, to);
  if (!ordered.ok) return { ok: false, fault: { kind: 'cycle', activities: ordered.cycle } };
  const work = workPeriods(problem);
  const latest = latestRelease(problem, baseline, work);
  const horizon = work + latest;
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
    base: steady ? forward.base : new Int32Array(2 * forward.base.length),
  };
  const duration = Int32Array.from(problem.activities, (activity) => activity.duration);
  const need = new Int32Array(size * packing.words);
  problem.activities.forEach(({ demands }, index) => packInto(packing, demands, need, index * packing.words));
  return {
    ok: true,
    network: { size, duration, need, packing, forward, backward, horizon, latest, steady, largest },
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
  for (let period = 0; period < end + horizon; period += 1) {
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

function givenPeriods({ resources }: Problem): number {
  return Math.max(
    1,
    ...resources.map(({ capacity }) => (typeof capacity === 'number' ? 1 : capacity.length)),
  );
}

/** After the calendar's end and the last release, one activity after the other always fits. */
function workPeriods(problem: Problem): number {
  const waits = new Int32Array(problem.activities.length);
  for (const { to, lag } of problem.links) waits[to] = Math.max(waits[to] as number, lag ?? 0);
  const start = givenPeriods(problem) + 1;
  return problem.activities.reduce((sum, { duration }, a) => sum + duration + (waits[a] as number), start);
}

function latestRelease({ activities }: Problem, baseline: Baseline, atMost: number): number {
  const release = activities.reduce((last, activity) => Math.max(last, activity.release ?? 0), 0);
  const planned = baseline.reduce<number>((last, start) => Math.max(last, start ?? 0), 0);
  return Math.max(release, Math.min(planned, atMost));
}
