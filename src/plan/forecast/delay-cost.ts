import { after } from '../graph.js';
import type { CompiledModel } from './compile.js';
import { addWorked, TICKS } from './day-table.js';
import { propagate, type Rows } from './propagate.js';
import { reachedAt, type Goal } from './goals.js';

/**
 * What it costs if a node ends one working day of its calendar later than it would: mean days by which the hand-over
 * moves, over a block of runs already reckoned. The same draws are reckoned once more from that node on; the
 * rows are put back as they were.
 */
export function delayCost(model: CompiledModel, rows: Rows, handOver: Goal, node: number): number {
  const { runs, finishes } = rows;
  const calendar = model.calendars[node];
  if (!calendar) return 0;
  const later = [node, ...after(model.graph, model.to, node)].filter((one) => model.lengths[one] !== null);
  const kept = later.map((one) => ({
    one,
    begins: rows.begins.slice(one * runs, (one + 1) * runs),
    finishes: finishes.slice(one * runs, (one + 1) * runs),
  }));
  const before = totalDays(model, rows, handOver);
  for (let k = node * runs; k < (node + 1) * runs; k += 1) {
    finishes[k] = addWorked(calendar, finishes[k] as number, TICKS);
  }
  for (const one of later) if (one !== node) propagate(model, rows, one);
  const moved = totalDays(model, rows, handOver) - before;
  for (const { one, ...row } of kept) {
    rows.begins.set(row.begins, one * runs);
    finishes.set(row.finishes, one * runs);
  }
  return moved / runs;
}

function totalDays(model: CompiledModel, rows: Rows, handOver: Goal): number {
  let total = 0;
  for (const tick of reachedAt(model, rows, handOver).latest) total += Math.floor(tick / TICKS);
  return total;
}
