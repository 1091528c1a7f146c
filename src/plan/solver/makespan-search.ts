import type { Random } from '../random.js';
import { crossUniformly, crossWindows, mutate } from './crossover.js';
import { hashOf } from './hash.js';
import { mirrorCalendar, type Network, type Side } from './network.js';
import { listSorter, mirrorStarts } from './order.js';
import { parallelGeneration, PARALLEL_AT_MOST, type Choose } from './parallel.js';
import { emptyPopulation, type Individual, type Population } from './population.js';
import { priorityRules } from './rules.js';
import { anyChoice, bestChoice, biasedChoice, drawList } from './sampling.js';
import { serialGeneration } from './serial.js';
import type { Tally } from './tally.js';

/** Schedules in each of the two populations; twice as many are drawn to begin with. */
const POPULATION = 20;
const TOURNAMENT = 2;
/** Begins anew after so many children per activity without a better one. */
const PATIENCE = 10;
/** Share of uniform crossovers in a search of `LONG_SEARCH` schedules or more per activity; less in a shorter one. */
const UNIFORM_SHARE = 0.3;
const LONG_SEARCH = 30;
/** A child whose list was tried before is moved on, so many times at most. */
const FRESH_TRIES = 10;

/** A direction of time with what is needed to work in it. */
type Way = {
  side: Side;
  usable: boolean;
  choices: Choose[];
  population: Population;
};

/**
 * Looks for a short schedule until the tally is over: a genetic algorithm with two populations (Debels &
 * Vanhoucke 2005, LNCS 3483:378-387), one of schedules built forwards and one of schedules built backwards. Each
 * child's order comes from parents of the other population, so that every pass is also a justification
 * (forward-backward improvement: Tormos & Lova 2001; Valls, Ballestín & Quintanilla 2005, EJOR 165:375-386). It
 * begins with biased random sampling in both directions, serial and parallel, never tries a list twice (which
 * costs no schedule to see), keeps no schedule twice, and begins anew when it no longer gets better. `schedules` is
 * the budget: a longer search mixes its parents more.
 */
export function searchMakespan(network: Network, random: Random, tally: Tally, schedules: number): void {
  const uniformShare = UNIFORM_SHARE * Math.min(1, schedules / (LONG_SEARCH * network.size));
  const search = prepare(network, random, tally, uniformShare);
  search.byRule();
  while (!tally.over()) {
    search.begin();
    search.breed();
  }
}

function prepare(network: Network, random: Random, tally: Tally, uniformShare: number) {
  const { size } = network;
  const serial = serialGeneration(network);
  const parallel = parallelGeneration(network);
  const draw = drawList(network);
  const sort = listSorter(network);
  const list = new Int32Array(size);
  const keys = [new Int32Array(size), new Int32Array(size), new Int32Array(size)] as const;
  const seen = new Set<number>();
  const noReleases = network.forward.release.every((time) => time === 0);
  const ways = ([network.forward, network.backward] as const).map((side) => ({
    side,
    // A schedule built backwards can be used where time has no beginning of its own.
    usable: side === network.forward || (network.steady && noReleases),
    // Half of them by rule, half at random: without the latter the populations are too much alike.
    choices: priorityRules(network, side).flatMap((rule) => [
      biasedChoice(random, rule, size),
      anyChoice(random),
    ]),
    population: emptyPopulation(),
  })) as [Way, Way];
  const other = (way: Way): Way => (way === ways[0] ? ways[1] : ways[0]);

  const note = (way: Way, start: Int32Array, value: number): Individual => {
    if (way.usable && way.side === network.backward) {
      mirrorStarts(network, start, value, keys[0]);
      tally.note(keys[0], value, true);
    } else tally.note(start, value, way.usable);
    return { start, value };
  };

  /** Builds the schedule of `list`; a backward one ends at `end` by the calendar. */
  const build = (way: Way, end: number): Individual => {
    if (way.side === network.backward) mirrorCalendar(network, end);
    const start = new Int32Array(size);
    return note(way, start, serial(way.side, list, start));
  };

  const sample = (way: Way, end: number): Individual => {
    const choice = way.choices[Math.floor(random.unit() * way.choices.length)] as Choose;
    if (size <= PARALLEL_AT_MOST && random.unit() < 0.5) {
      if (way.side === network.backward) mirrorCalendar(network, end);
      const start = new Int32Array(size);
      return note(way, start, parallel(way.side, choice, start));
    }
    draw(way.side, choice, list);
    return build(way, end);
  };

  const justify = (from: Way, { start, value }: Individual): Individual => {
    mirrorStarts(network, start, value, keys[0]);
    sort(other(from).side, keys[0], list);
    return build(other(from), value);
  };

  const mate = (way: Way, index: number): Individual => {
    const parents = other(way).population;
    const father = parents.at(index);
    const mother = parents.at(parents.tournament(random, TOURNAMENT, index));
    const [ofFather, ofMother, ofChild] = keys;
    mirrorStarts(network, father.start, father.value, ofFather);
    mirrorStarts(network, mother.start, mother.value, ofMother);
    for (let attempt = 1; attempt <= FRESH_TRIES; attempt += 1) {
      if (random.unit() < uniformShare) crossUniformly(random, ofFather, ofMother, ofChild);
      else crossWindows(random, ofFather, ofMother, father.value, ofChild);
      mutate(random, network, ofChild, attempt);
      sort(way.side, ofChild, list);
      const hash = hashOf(list, way === ways[0] ? 1 : 2);
      if (seen.has(hash)) continue;
      seen.add(hash);
      break;
    }
    return build(way, father.value);
  };

  return {
    /** One schedule by the latest-finish rule: whatever happens next, there is a schedule. */
    byRule: () => {
      draw(network.forward, bestChoice(priorityRules(network, network.forward)[0]), list);
      build(ways[0], 0);
    },
    begin: () => {
      for (const way of ways) way.population = emptyPopulation();
      for (let k = 0; k < 2 * POPULATION && !tally.over(); k += 1) {
        const way = ways[k % 2] as Way;
        const first = sample(way, tally.best().value);
        way.population.add(first);
        if (!tally.over()) other(way).population.add(justify(way, first));
      }
      for (const way of ways) way.population.trim(POPULATION);
    },
    breed: () => {
      let best = Infinity;
      let children = 0;
      let way = ways[1];
      while (children < PATIENCE * size && !tally.over()) {
        const { population } = way;
        const parents = other(way).population.size();
        for (let k = 0; k < parents && !tally.over(); k += 1) {
          const child = mate(way, k);
          children += 1;
          if (child.value < best) {
            best = child.value;
            children = 0;
          }
          if (population.size() < POPULATION) population.add(child);
          else population.replace(k % population.size(), child);
        }
        way = other(way);
      }
    },
  };
}
