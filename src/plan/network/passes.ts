import { at, type Graph } from '../graph.js';
import type { LinkKind, NetworkActivity } from '../network.js';

/** Figures that differ by less are the same: durations such as 5.5 / 3 don't add up exactly. */
export const SAME = 1e-9;

/** A network by node and link numbers. */
export type Compiled = {
  activities: readonly NetworkActivity[];
  graph: Graph;
  from: Int32Array;
  to: Int32Array;
  kinds: LinkKind[];
  lags: Float64Array;
};

/** The earliest start that one link allows to the activity after it. */
function startAllowed(compiled: Compiled, link: number, start: number, finish: number): number {
  const lag = at(compiled.lags, link);
  const length = compiled.activities[at(compiled.to, link)]?.duration ?? 0;
  switch (compiled.kinds[link] ?? 'finish-start') {
    case 'finish-start':
      return finish + lag;
    case 'start-start':
      return start + lag;
    case 'finish-finish':
      return finish + lag - length;
    case 'start-finish':
      return start + lag - length;
  }
}

/** The latest finish that one link allows to the activity before it. */
function finishAllowed(compiled: Compiled, link: number, start: number, finish: number): number {
  const lag = at(compiled.lags, link);
  const length = compiled.activities[at(compiled.from, link)]?.duration ?? 0;
  switch (compiled.kinds[link] ?? 'finish-start') {
    case 'finish-start':
      return start - lag;
    case 'start-start':
      return start - lag + length;
    case 'finish-finish':
      return finish - lag;
    case 'start-finish':
      return finish - lag + length;
  }
}

/** The forward pass: the earliest start of each node. */
export function earlyStarts(compiled: Compiled, bounded: boolean): Float64Array {
  const { graph, activities, from } = compiled;
  const starts = new Float64Array(graph.size);
  for (const node of graph.order) {
    let start = -Infinity;
    for (let k = at(graph.incomingFrom, node); k < at(graph.incomingFrom, node + 1); k += 1) {
      const link = at(graph.incoming, k);
      const before = at(from, link);
      const begun = at(starts, before);
      const length = activities[before]?.duration ?? 0;
      start = Math.max(start, startAllowed(compiled, link, begun, begun + length));
    }
    starts[node] = start === -Infinity || (bounded && start < 0) ? 0 : start;
  }
  return starts;
}

/** The backward pass: the latest finish of each node. */
export function lateDates(
  compiled: Compiled,
  durations: Float64Array,
  end: number,
  bounded: boolean,
): Float64Array {
  const { graph, to } = compiled;
  const finishes = new Float64Array(graph.size);
  for (const node of graph.order.slice().reverse()) {
    let finish = Infinity;
    for (let k = at(graph.outgoingFrom, node); k < at(graph.outgoingFrom, node + 1); k += 1) {
      const link = at(graph.outgoing, k);
      const next = at(to, link);
      const late = at(finishes, next);
      finish = Math.min(finish, finishAllowed(compiled, link, late - at(durations, next), late));
    }
    finishes[node] = finish === Infinity || (bounded && finish > end) ? end : finish;
  }
  return finishes;
}

/** How much later each node may be without moving any after it. */
export function freeSlacks(
  compiled: Compiled,
  starts: Float64Array,
  finishes: Float64Array,
  end: number,
): Float64Array {
  const { graph, from, to } = compiled;
  const free = finishes.map((finish) => end - finish);
  for (let link = 0; link < from.length; link += 1) {
    const before = at(from, link);
    const after = at(to, link);
    const pressed = startAllowed(compiled, link, at(starts, before), at(finishes, before));
    free[before] = Math.min(at(free, before), at(starts, after) - pressed);
  }
  return graph.size > 0 ? free : new Float64Array(0);
}

/** The ids of the chain that drives one activity, first to last. */
export function drivingChain(
  compiled: Compiled,
  starts: Float64Array,
  finishes: Float64Array,
  id: string,
): string[] {
  const { graph, activities, from } = compiled;
  const chain: string[] = [];
  let node = activities.findIndex((activity) => activity.id === id);
  while (node >= 0) {
    chain.push(activities[node]?.id ?? '');
    let driver = -1;
    for (let k = at(graph.incomingFrom, node); k < at(graph.incomingFrom, node + 1); k += 1) {
      const link = at(graph.incoming, k);
      const before = at(from, link);
      const pressed = startAllowed(compiled, link, at(starts, before), at(finishes, before));
      if (driver < 0 && Math.abs(pressed - at(starts, node)) <= SAME) driver = before;
    }
    node = driver;
  }
  return chain.reverse();
}
