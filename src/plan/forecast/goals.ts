import type { Gate } from '../../trade/terms.js';
import { at } from '../graph.js';
import type { CompiledModel } from './compile.js';
import { addWorked } from './day-table.js';
import type { Rows } from './propagate.js';

/** Something that is reached when the last of its activities is finished: a gate, or the hand-over. */
export type Goal = {
  gate: Gate | null;
  /** Nodes that can be the last one. */
  ends: Int32Array;
  /** The bench work that it needs, and all before that: it can't be reached before their hours are worked. */
  benchWork: Int32Array;
};

/** The goals of a model: each gate that has activities, and last the hand-over, which has all. */
export function goalsOf(model: CompiledModel): Goal[] {
  const gates = [...new Set(model.activities.map((activity) => activity.gate))].filter(
    (gate) => gate !== null,
  );
  return [...gates, null].map((gate) => {
    const members = model.activities.map((activity) => gate === null || activity.gate === gate);
    return { gate, ends: endsOf(model, members), benchWork: benchWorkOf(model, members) };
  });
}

/**
 * When each run reaches a goal, in ticks, and the node that was the last; -1 where the bench hours were, worked one
 * after the other at the shop's pace from today. `worked` is the sum of the goal's bench work in each run.
 */
export function reachedAt(
  model: CompiledModel,
  rows: Rows,
  goal: Goal,
  worked: Int32Array = benchTicks(rows, goal.benchWork),
): { latest: Int32Array; last: Int16Array } {
  const { runs, finishes } = rows;
  const { shop, today } = model;
  const latest = worked.map((ticks) => (ticks === 0 ? -1 : addWorked(shop, today, ticks - 1)));
  const last = new Int16Array(runs).fill(-1);
  for (const node of goal.ends) {
    // Bench work done by the end of a day is done that day.
    const less = model.activities[node]?.kind === 'bench' ? 1 : 0;
    const from = node * runs;
    for (let r = 0; r < runs; r += 1) {
      const finish = (finishes[from + r] as number) - less;
      if (finish >= (latest[r] as number)) {
        latest[r] = finish;
        last[r] = node;
      }
    }
  }
  return { latest, last };
}

/** The ticks of all this bench work in each run. */
export function benchTicks(rows: Rows, nodes: Iterable<number>): Int32Array {
  const { runs, lengths } = rows;
  const ticks = new Int32Array(runs);
  for (const node of nodes) {
    const from = node * runs;
    for (let r = 0; r < runs; r += 1) ticks[r] = (ticks[r] as number) + (lengths[from + r] as number);
  }
  return ticks;
}

export function sumRows(rows: readonly Int32Array[], runs: number): Int32Array {
  const sum = new Int32Array(runs);
  for (const row of rows) for (let r = 0; r < runs; r += 1) sum[r] = (sum[r] as number) + (row[r] as number);
  return sum;
}

/** Bench work by the goals that need it, so that each piece is added up once for all of them. */
export function benchGroups(goals: readonly Goal[]): { goals: number[]; nodes: number[] }[] {
  const neededBy = new Map<number, number[]>();
  goals.forEach((goal, k) => {
    for (const node of goal.benchWork) neededBy.set(node, [...(neededBy.get(node) ?? []), k]);
  });
  const groups = new Map<string, { goals: number[]; nodes: number[] }>();
  for (const [node, needing] of neededBy) {
    const group = groups.get(needing.join()) ?? { goals: needing, nodes: [] };
    group.nodes.push(node);
    groups.set(needing.join(), group);
  }
  return [...groups.values()];
}

/** Members that no other member is sure to outlast. */
function endsOf(model: CompiledModel, members: readonly boolean[]): Int32Array {
  const outlasted = new Set(
    model.links
      .filter((link) => link.kind === 'finish-start' && members[link.from] && members[link.to])
      .filter((link) => model.lengths[link.to] !== null && at(model.begun, link.to) === 0)
      .map((link) => link.from),
  );
  return Int32Array.from([...members.keys()].filter((node) => members[node] && !outlasted.has(node)));
}

/** The members that are bench work still to do, and all such work before any member. */
function benchWorkOf(model: CompiledModel, members: readonly boolean[]): Int32Array {
  const needed = Uint8Array.from(members, (member) => (member ? 1 : 0));
  const { order, incoming, incomingFrom } = model.graph;
  const work: number[] = [];
  for (const node of order.slice().reverse()) {
    if (at(needed, node) === 0 || model.lengths[node] === null) continue;
    if (model.activities[node]?.kind === 'bench') work.push(node);
    for (let k = at(incomingFrom, node); k < at(incomingFrom, node + 1); k += 1) {
      const before = model.links[at(incoming, k)]?.from;
      if (before !== undefined) needed[before] = 1;
    }
  }
  return Int32Array.from(work);
}
