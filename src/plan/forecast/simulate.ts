import type { Gate } from '../../trade/terms.js';
import { at } from '../graph.js';
import { randomFrom } from '../random.js';
import { addWorked, TICKS } from './day-table.js';
import type { CompiledModel } from './compile.js';
import { drawRow, middleOf } from './draws.js';
import { driverOf, makeRows, propagate, type Rows } from './propagate.js';

/** Something that is reached when the last of its activities is finished: a gate, or the hand-over. */
export type Goal = {
  gate: Gate | null;
  /** Nodes that can be the last one. */
  ends: Int32Array;
  /** The bench work that it needs, and all before that: it can't be reached before their hours are worked. */
  benchWork: Int32Array;
};

export type GoalRuns = {
  goal: Goal;
  /** Runs that reach the goal on each day. */
  onDay: Int32Array;
  /** Runs in which the bench hours hold the goal up, rather than any chain. */
  byHands: number;
};

export type SimulatedModel = {
  goals: GoalRuns[];
  /** How often each node was on the critical path to the hand-over, 0 to 1, over one run in five. */
  critical: Float64Array;
  /** The last block of runs, to look closer at. */
  sample: Rows;
  runs: number;
};

/** Runs are reckoned in blocks, so that a block's rows stay in the processor's cache. */
export const BLOCK = 250;
/** Walking back the critical path costs as much as the run: one run in five gives it to about a hundredth. */
const CRITICAL_STRIDE = 5;

/**
 * Simulates a model `runs` times. The draws of each activity come from a stream of its own, given by the seed and
 * its id: a change elsewhere leaves them as they are.
 */
export function simulate(
  model: CompiledModel,
  goals: readonly Goal[],
  runs: number,
  seed: number,
): SimulatedModel {
  const nodes = model.graph.size;
  const rows = makeRows(nodes, Math.min(BLOCK, runs));
  const streams = model.activities.map((activity) => streamOf(seed, activity.id));
  const reached = goals.map((goal): GoalRuns => ({
    goal,
    onDay: new Int32Array(model.dates.length),
    byHands: 0,
  }));
  const critical = new Int32Array(nodes);
  const groups = benchGroups(goals);
  const blocks = Math.ceil(runs / rows.runs);
  for (let block = 0; block < blocks; block += 1) {
    for (const node of model.graph.order) {
      const lengths = model.lengths[node];
      const stream = streams[node];
      if (lengths && stream) drawRow(lengths, stream, rows.lengths, node * rows.runs, rows.runs);
      propagate(model, rows, node);
    }
    const worked = groups.map((group) => benchTicks(rows, group.nodes));
    reached.forEach((goal, k) => {
      const ticks = sumRows(
        worked.filter((_, g) => groups[g]?.goals.includes(k)),
        rows.runs,
      );
      count(model, rows, goal, ticks, goal.goal.gate === null ? critical : null);
    });
  }
  const looked = blocks * Math.ceil(rows.runs / CRITICAL_STRIDE);
  const share = Float64Array.from(critical, (many) => many / looked);
  return { goals: reached, critical: share, sample: rows, runs: blocks * rows.runs };
}

/** One run with every length at its middle. */
export function middleRun(model: CompiledModel): Rows {
  const rows = makeRows(model.graph.size, 1);
  model.lengths.forEach((lengths, node) => {
    rows.lengths[node] = lengths === null ? 0 : middleOf(lengths);
  });
  for (const node of model.graph.order) propagate(model, rows, node);
  return rows;
}

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

function count(
  model: CompiledModel,
  rows: Rows,
  reached: GoalRuns,
  worked: Int32Array,
  critical: Int32Array | null,
): void {
  const { latest, last } = reachedAt(model, rows, reached.goal, worked);
  const lastDay = model.dates.length - 1;
  for (let r = 0; r < rows.runs; r += 1) {
    const day = Math.min(lastDay, Math.floor((latest[r] as number) / TICKS));
    reached.onDay[day] = (reached.onDay[day] as number) + 1;
    let node = last[r] as number;
    if (node < 0) reached.byHands += 1;
    if (critical === null || r % CRITICAL_STRIDE !== 0) continue;
    while (node >= 0) {
      critical[node] = (critical[node] as number) + 1;
      node = driverOf(model, rows, node, r);
    }
  }
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
function benchTicks(rows: Rows, nodes: Iterable<number>): Int32Array {
  const { runs, lengths } = rows;
  const ticks = new Int32Array(runs);
  for (const node of nodes) {
    const from = node * runs;
    for (let r = 0; r < runs; r += 1) ticks[r] = (ticks[r] as number) + (lengths[from + r] as number);
  }
  return ticks;
}

function sumRows(rows: readonly Int32Array[], runs: number): Int32Array {
  const sum = new Int32Array(runs);
  for (const row of rows) for (let r = 0; r < runs; r += 1) sum[r] = (sum[r] as number) + (row[r] as number);
  return sum;
}

/** Bench work by the goals that need it, so that each piece is added up once for all of them. */
function benchGroups(goals: readonly Goal[]): { goals: number[]; nodes: number[] }[] {
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

/** The state of xoshiro128** for one activity: FNV-1a of its id, stirred with the seed. */
function streamOf(seed: number, id: string): Int32Array {
  let hash = 0x811c9dc5 ^ seed;
  for (let k = 0; k < id.length; k += 1) hash = Math.imul(hash ^ id.charCodeAt(k), 0x01000193);
  const random = randomFrom(hash);
  return Int32Array.from([random.word(), random.word(), random.word(), random.word()]);
}
