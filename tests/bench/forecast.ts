/**
 * The forecast of a job against bare arithmetic: the same draws, additions and maxima over typed arrays, with
 * no calendars, no critical path and no dates. Run with `node dist/tests/bench/forecast.js`. Aim: at most 2x.
 */
import { compileModel } from '../../src/plan/forecast/compile.js';
import { drawRow } from '../../src/plan/forecast/draws.js';
import { forecast } from '../../src/plan/forecast.js';
import type { PlanModel } from '../../src/plan/model.js';
import { inventedJob } from '../plan/forecast/invented-job.js';

const RUNS = 10_000;
const ROUNDS = 25;
const BLOCK = 250;

/** Prepared outside the timing: what is timed draws, adds and takes maxima, and nothing else. */
function bareArithmetic(model: PlanModel): () => number {
  const compiled = compileModel(model);
  if (!compiled.ok) throw new Error(JSON.stringify(compiled.fault));
  const { graph, links, lengths } = compiled.model;
  const incoming = [...graph.order].map((node) => ({
    node,
    lengths: lengths[node] ?? null,
    state: Int32Array.from([node + 1, 2, 3, 4]),
    links: links.filter((link) => link.to === node),
  }));
  const drawn = new Int32Array(BLOCK);
  const finish = new Int32Array(graph.size * BLOCK);
  const latest = new Int32Array(BLOCK);
  return () => {
    let sum = 0;
    for (let block = 0; block < RUNS / BLOCK; block += 1) {
      latest.fill(0);
      for (const one of incoming) {
        const target = one.node * BLOCK;
        finish.fill(0, target, target + BLOCK);
        for (const { from, wait } of one.links) {
          const source = from * BLOCK;
          for (let r = 0; r < BLOCK; r += 1) {
            const free = (finish[source + r] as number) + wait;
            if (free > (finish[target + r] as number)) finish[target + r] = free;
          }
        }
        if (one.lengths) drawRow(one.lengths, one.state, drawn, 0, BLOCK);
        for (let r = 0; r < BLOCK; r += 1) {
          const end = (finish[target + r] as number) + (drawn[r] as number);
          finish[target + r] = end;
          if (end > (latest[r] as number)) latest[r] = end;
        }
      }
      for (const end of latest) sum += end;
    }
    return sum;
  };
}

function milliseconds(run: () => unknown): number {
  const start = performance.now();
  run();
  return performance.now() - start;
}

console.log('activities  links  runs    forecast ms  bare ms  ratio');
for (const size of (process.env.SIZES ?? '50,150,500').split(',').map(Number)) {
  const model = inventedJob(size, 8, 11);
  const bare = bareArithmetic(model);
  const ours: number[] = [];
  const theirs: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    // A fresh model each time, as after an event; its calendars stay those of the shop.
    const changed = { ...model, activities: model.activities.map((one) => ({ ...one })) };
    const started = milliseconds(() => forecast(changed, { seed: round, runs: RUNS }));
    const plain = milliseconds(bare);
    if (round < 3) continue;
    ours.push(started);
    theirs.push(plain);
  }
  // The least time is what the work takes when nothing else runs on the core.
  const [a, b] = [Math.min(...ours), Math.min(...theirs)];
  console.log(
    String(size).padStart(10),
    String(model.links.length).padStart(6),
    String(RUNS).padStart(6),
    a.toFixed(1).padStart(13),
    b.toFixed(1).padStart(8),
    (a / b).toFixed(2).padStart(6),
  );
}
