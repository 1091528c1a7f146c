import type { Random } from '../random.js';
import { crossWindows, mutate } from './crossover.js';
import type { Network, Side } from './network.js';
import type { Value } from './objective.js';
import { listSorter } from './order.js';
import type { Baseline, Problem } from './problem.js';
import { dueRule, priorityRules, type Priority } from './rules.js';
import { anyChoice, bestChoice, biasedChoice, drawList } from './sampling.js';
import { serialGeneration } from './serial.js';
import type { Tally } from './tally.js';

const POPULATION = 20;
const TOURNAMENT = 2;
const PATIENCE = 10;
/** Chance that a child's activity changes between holding to its place in the baseline and not. */
const CHANGE_OF_HOLD = 0.02;

/** A schedule, and which of its activities were not to start before their start in the baseline. */
type Member = { start: Int32Array; value: number; held: Uint8Array };

export type ObjectiveTask = { problem: Problem; network: Network; value: Value; baseline: Baseline };

/**
 * Looks for a schedule of small value until the tally is over: a genetic algorithm over forward serial schedules
 * with the time-window crossover. A schedule that only ever starts things as early as it can is not near a baseline;
 * so each member also says which activities hold to their places there (are not started earlier). The baseline
 * itself, mended where it no longer works, is the first member.
 */
export function searchObjective(task: ObjectiveTask, random: Random, tally: Tally): void {
  const search = prepare(task, random, tally);
  do {
    const members = search.begin();
    if (members.length > 0) search.breed(members);
  } while (!tally.over());
}

function prepare({ problem, network, value, baseline }: ObjectiveTask, random: Random, tally: Tally) {
  const { size, forward } = network;
  const serial = serialGeneration(network);
  const draw = drawList(network);
  const sort = listSorter(network);
  const list = new Int32Array(size);
  const key = new Int32Array(size);
  const side: Side = { ...forward, release: forward.release.slice() };
  const planned = Array.from({ length: size }, (_, a) => clamp(baseline[a] ?? null, network.latest));
  const rules: Priority[] = [dueRule(network, problem), priorityRules(network, forward)[0]];
  const someHold = planned.some((time) => time !== null);

  const build = (held: Uint8Array): Member => {
    for (let a = 0; a < size; a += 1) {
      const earliest = forward.release[a] as number;
      side.release[a] = held[a] === 1 ? Math.max(earliest, planned[a] ?? 0) : earliest;
    }
    const start = new Int32Array(size);
    serial(side, list, start);
    const worth = value.of(start);
    tally.note(start, worth, true);
    return { start, value: worth, held };
  };

  const fromBaseline = (hold: 0 | 1): Member => {
    draw(forward, bestChoice(Float64Array.from(planned, (time) => time ?? network.horizon)), list);
    return build(new Uint8Array(size).fill(hold));
  };

  const sample = (): Member => {
    // Rules hardly ever draw some orders, and where those are best only chance finds them.
    const rule = rules[Math.floor(random.unit() * (rules.length + 1))];
    draw(forward, rule ? biasedChoice(random, rule, size) : anyChoice(random), list);
    const held = new Uint8Array(size);
    if (someHold && random.unit() < 0.5) held.fill(1);
    return build(held);
  };

  const mate = (members: readonly Member[], index: number): Member => {
    const father = members[index] as Member;
    let mother = drawn(members, random);
    for (let round = 1; round < TOURNAMENT; round += 1) {
      const rival = drawn(members, random);
      if (rival.value < mother.value) mother = rival;
    }
    const end = father.start.reduce(
      (last, time, a) => Math.max(last, time + (network.duration[a] as number)),
      1,
    );
    crossWindows(random, father.start, mother.start, end, key);
    mutate(random, network, key, 1);
    sort(forward, key, list);
    const held = father.held.slice();
    if (someHold) crossHolds(random, mother.held, held);
    return build(held);
  };

  return {
    begin: (): Member[] => {
      const members: Member[] = [];
      const makers = [
        ...(someHold ? [() => fromBaseline(1), () => fromBaseline(0)] : []),
        ...rules.map((rule) => () => {
          draw(forward, bestChoice(rule), list);
          return build(new Uint8Array(size));
        }),
      ];
      while (members.length < POPULATION && !tally.over()) members.push((makers.shift() ?? sample)());
      return members;
    },
    breed: (members: Member[]): void => {
      let best = Infinity;
      let children = 0;
      while (children < PATIENCE * size && !tally.over()) {
        for (let k = 0; k < members.length && !tally.over(); k += 1) {
          const child = mate(members, k);
          children += 1;
          if (child.value < best) {
            best = child.value;
            children = 0;
          }
          if (child.value <= (members[k] as Member).value) members[k] = child;
        }
      }
    },
  };
}

/** Takes some of the mother's holds, and changes a few. */
function crossHolds(random: Random, mother: Uint8Array, held: Uint8Array): void {
  for (let a = 0; a < held.length; a += 1) {
    if (random.unit() < 0.5) held[a] = mother[a] as number;
    if (random.unit() < CHANGE_OF_HOLD) held[a] = 1 - (held[a] as number);
  }
}

function drawn(members: readonly Member[], random: Random): Member {
  return members[Math.floor(random.unit() * members.length)] as Member;
}

/** A start beyond all sense would hold an activity where there is no time. */
function clamp(time: number | null, latest: number): number | null {
  return time === null || !Number.isFinite(time) ? null : Math.min(Math.max(0, Math.round(time)), latest);
}
