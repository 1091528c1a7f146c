/**
 * A directed graph over nodes 0..n-1, its nodes in an order that respects every link, and for each node the
 * links that come in and go out: link indexes `incoming[incomingFrom[node] .. incomingFrom[node + 1]]`.
 */
export type Graph = {
  size: number;
  order: Int32Array;
  incoming: Int32Array;
  incomingFrom: Int32Array;
  outgoing: Int32Array;
  outgoingFrom: Int32Array;
};

export type GraphResult = { ok: true; graph: Graph } | { ok: false; cycle: number[] };

/**
 * Orders a graph (Kahn 1962, ties by node number, so the order is always the same), or gives one of its
 * cycles as nodes in link order. `from` and `to` hold the ends of each link.
 */
export function orderGraph(size: number, from: Int32Array, to: Int32Array): GraphResult {
  const [incoming, incomingFrom] = group(size, to);
  const [outgoing, outgoingFrom] = group(size, from);
  const waiting = new Int32Array(size);
  for (const node of to) waiting[node] = at(waiting, node) + 1;
  const order = new Int32Array(size);
  let placed = 0;
  for (let node = 0; node < size; node += 1) if (at(waiting, node) === 0) order[placed++] = node;
  for (let next = 0; next < placed; next += 1) {
    const node = at(order, next);
    for (let k = at(outgoingFrom, node); k < at(outgoingFrom, node + 1); k += 1) {
      const target = at(to, at(outgoing, k));
      waiting[target] = at(waiting, target) - 1;
      if (at(waiting, target) === 0) order[placed++] = target;
    }
  }
  if (placed < size) return { ok: false, cycle: findCycle(waiting, from, incoming, incomingFrom) };
  return { ok: true, graph: { size, order, incoming, incomingFrom, outgoing, outgoingFrom } };
}

/** Reads a typed array where the index is known to be inside. */
export function at(values: Int32Array | Float64Array | Uint8Array, index: number): number {
  return values[index] as number;
}

/** Nodes that can be reached from `node` (itself left out), in the graph's order. */
export function after(graph: Graph, to: Int32Array, node: number): number[] {
  const reached = new Uint8Array(graph.size);
  reached[node] = 1;
  const found: number[] = [];
  for (const current of graph.order) {
    if (reached[current] === 0) continue;
    if (current !== node) found.push(current);
    for (let k = at(graph.outgoingFrom, current); k < at(graph.outgoingFrom, current + 1); k += 1) {
      reached[at(to, at(graph.outgoing, k))] = 1;
    }
  }
  return found;
}

function group(size: number, ends: Int32Array): [Int32Array, Int32Array] {
  const start = new Int32Array(size + 1);
  for (const node of ends) start[node + 1] = at(start, node + 1) + 1;
  for (let node = 0; node < size; node += 1) start[node + 1] = at(start, node + 1) + at(start, node);
  const next = start.slice();
  const links = new Int32Array(ends.length);
  ends.forEach((node, link) => {
    links[at(next, node)] = link;
    next[node] = at(next, node) + 1;
  });
  return [links, start];
}

/** Every node still waiting has one before it that still waits: walking back must come round. */
function findCycle(
  waiting: Int32Array,
  from: Int32Array,
  incoming: Int32Array,
  incomingFrom: Int32Array,
): number[] {
  const seenAt = new Map<number, number>();
  const walk: number[] = [];
  let node = waiting.findIndex((count) => count > 0);
  while (!seenAt.has(node)) {
    seenAt.set(node, walk.length);
    walk.push(node);
    for (let k = at(incomingFrom, node); k < at(incomingFrom, node + 1); k += 1) {
      const before = at(from, at(incoming, k));
      if (at(waiting, before) > 0) {
        node = before;
        break;
      }
    }
  }
  return walk.slice(seenAt.get(node)).reverse();
}
