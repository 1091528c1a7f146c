import { randomFrom } from '../random.js';
import { TICKS } from './day-table.js';
import type { CompiledModel } from './compile.js';
import { drawRow, middleOf } from './draws.js';
import { benchGroups, benchTicks, reachedAt, sumRows, type Goal } from './goals.js';
import { driverOf, makeRows, propagate, type Rows } from './propagate.js';

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

/** The state of xoshiro128** for one activity: FNV-1a of its id, stirred with the seed. */
function streamOf(seed: number, id: string): Int32Array {
  let hash = 0x811c9dc5 ^ seed;
  for (let k = 0; k < id.length; k += 1) hash = Math.imul(hash ^ id.charCodeAt(k), 0x01000193);
  const random = randomFrom(hash);
  return Int32Array.from([random.word(), random.word(), random.word(), random.word()]);
}
