import { at } from '../graph.js';
import { addWorked, addWorkedRow } from './day-table.js';
import type { CompiledLink, CompiledModel } from './compile.js';

/** Rows of `runs` values a node: node n's are at n × runs. */
export type Rows = {
  runs: number;
  lengths: Int32Array;
  begins: Int32Array;
  finishes: Int32Array;
};

export function makeRows(nodes: number, runs: number): Rows {
  const size = nodes * runs;
  return {
    runs,
    lengths: new Int32Array(size),
    begins: new Int32Array(size),
    finishes: new Int32Array(size),
  };
}

/** Fewer runs suffice for what is told of single activities than for the dates of the gates. */
const FEW = 150;

/** The first runs of a block, reckoned again with the same lengths, to work on. */
export function fewRuns(model: CompiledModel, rows: Rows): Rows {
  const runs = Math.min(FEW, rows.runs);
  const few = makeRows(model.graph.size, runs);
  for (const node of model.graph.order) {
    few.lengths.set(rows.lengths.subarray(node * rows.runs, node * rows.runs + runs), node * runs);
    propagate(model, few, node);
  }
  return few;
}

/** Reckons one node's starts and finishes from those before it, for all runs; its lengths are given. */
export function propagate(model: CompiledModel, rows: Rows, node: number): void {
  const { runs, begins, finishes, lengths } = rows;
  const from = node * runs;
  const until = from + runs;
  begins.fill(at(model.earliest, node), from, until);
  if (model.lengths[node] === null) {
    finishes.fill(at(model.earliest, node), from, until);
    return;
  }
  const held = at(model.begun, node) === 0;
  if (held) eachLink(model, node, (link) => pressBegin(rows, link));
  const calendar = model.calendars[node];
  const whole = model.activities[node]?.kind === 'bench' ? 1 : 0;
  if (calendar) addWorkedRow(calendar, begins, lengths, finishes, from, runs, whole);
  if (held) eachLink(model, node, (link) => pressFinish(rows, link));
}

function eachLink(model: CompiledModel, node: number, use: (link: CompiledLink) => void): void {
  const { incoming, incomingFrom } = model.graph;
  for (let k = at(incomingFrom, node); k < at(incomingFrom, node + 1); k += 1) {
    const link = model.links[at(incoming, k)];
    if (link) use(link);
  }
}

function pressBegin(rows: Rows, link: CompiledLink): void {
  if (link.kind === 'finish-start') press(rows, link, rows.finishes, rows.begins);
  if (link.kind === 'start-start') press(rows, link, rows.begins, rows.begins);
}

/** Work that may not end before something else is drawn out, not begun later. */
function pressFinish(rows: Rows, link: CompiledLink): void {
  if (link.kind === 'finish-finish') press(rows, link, rows.finishes, rows.finishes);
  if (link.kind === 'start-finish') press(rows, link, rows.begins, rows.finishes);
}

function press(rows: Rows, link: CompiledLink, before: Int32Array, after: Int32Array): void {
  const { runs } = rows;
  const { wait, calendar } = link;
  const source = link.from * runs;
  const target = link.to * runs;
  if (calendar !== null) {
    for (let r = 0; r < runs; r += 1) {
      const time = addWorked(calendar, before[source + r] as number, wait);
      if (time > (after[target + r] as number)) after[target + r] = time;
    }
    return;
  }
  for (let r = 0; r < runs; r += 1) {
    const time = (before[source + r] as number) + wait;
    if (time > (after[target + r] as number)) after[target + r] = time;
  }
}

/** The node that one node waited for in a run, or -1 where nothing held it. */
export function driverOf(model: CompiledModel, rows: Rows, node: number, run: number): number {
  if (model.lengths[node] === null || at(model.begun, node) === 1) return -1;
  const { runs, begins, finishes } = rows;
  const { incoming, incomingFrom } = model.graph;
  const begin = at(begins, node * runs + run);
  const finish = at(finishes, node * runs + run);
  let driver = -1;
  for (let k = at(incomingFrom, node); k < at(incomingFrom, node + 1); k += 1) {
    const link = model.links[at(incoming, k)] as CompiledLink;
    const fromBegin = link.kind === 'start-start' || link.kind === 'start-finish';
    const free = at(fromBegin ? begins : finishes, link.from * runs + run);
    const time = link.calendar === null ? free + link.wait : addWorked(link.calendar, free, link.wait);
    const drawnOut = link.kind === 'finish-finish' || link.kind === 'start-finish';
    // What the finish was drawn out for held it more than what its begin waited for.
    if (drawnOut && time === finish) return link.from;
    if (!drawnOut && time === begin && time > at(model.earliest, node)) driver = link.from;
  }
  return driver;
}
