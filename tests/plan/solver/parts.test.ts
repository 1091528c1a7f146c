import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { randomFrom } from '../../../src/plan/random.js';
import { makespanBound } from '../../../src/plan/solver/bound.js';
import { crossWindows } from '../../../src/plan/solver/crossover.js';
import { compileProblem, mirrorCalendar, type Network } from '../../../src/plan/solver/network.js';
import { emptyPopulation } from '../../../src/plan/solver/population.js';
import type { Problem } from '../../../src/plan/solver/problem.js';
import { dueRule } from '../../../src/plan/solver/rules.js';
import { serialGeneration } from '../../../src/plan/solver/serial.js';

const job = (duration: number, more: object = {}) => ({ duration, demands: [1], ...more });

function compiled(problem: Problem): Network {
  const result = compileProblem(problem);
  if (!result.ok) throw new Error(JSON.stringify(result.fault));
  return result.network;
}

describe('the bound on the makespan', () => {
  const boundOf = (problem: Problem) => makespanBound(problem, compiled(problem));
  // By hand: 3 + 4 + 4 periods of work over 2 units are 5.5 periods.
  test('is the work over what there is, rounded up', () => {
    expect(boundOf({ activities: [job(3), job(4), job(4)], links: [], resources: [{ capacity: 2 }] })).toBe(
      6,
    );
  });
  // By hand: 2 units of work by the end of period 3, and 9 left for the 2 units a period after it.
  test('counts what a calendar gives', () => {
    const resources = [{ capacity: [1, 0, 0, 1, 2] }];
    expect(boundOf({ activities: [job(3), job(4), job(4)], links: [], resources })).toBe(9);
  });
  test('is the longest chain where that is longer', () => {
    const links = [{ from: 0, to: 1, lag: 5 }];
    expect(boundOf({ activities: [job(3), job(4)], links, resources: [{ capacity: 2 }] })).toBe(12);
  });
});

test('a backward pass sees the calendar from its end', () => {
  // By hand: the resource is there in periods 6, 3, 1 and 0, which back from 7 are 0, 3, 5 and 6; before the
  // calendar's beginning (from 7 back) there is always enough.
  const problem: Problem = {
    activities: [job(1), job(2), job(1)],
    links: [
      { from: 0, to: 1 },
      { from: 1, to: 2 },
    ],
    resources: [{ capacity: [1, 1, 0, 1, 0, 0, 1] }],
  };
  const network = compiled(problem);
  mirrorCalendar(network, 7);
  const start = new Int32Array(3);
  const makespan = serialGeneration(network)(network.backward, Int32Array.of(2, 1, 0), start);
  expect([...start]).toEqual([7, 5, 0]);
  expect(makespan).toBe(8);
});

test('the due rule counts back from the due dates of all that follow', () => {
  const problem: Problem = {
    activities: [job(2), job(3, { due: 20 }), job(4, { due: 11 }), job(1)],
    links: [
      { from: 0, to: 1 },
      { from: 1, to: 2, lag: 2 },
    ],
    resources: [{ capacity: 1 }],
  };
  // By hand: 11; 11 - 4 - 2 = 5; 5 - 3 = 2; nothing after the last one is due before 20.
  expect([...dueRule(compiled(problem), problem)]).toEqual([2, 5, 11, 20]);
});

test('a child has its father’s order outside a window of time, and its mother’s inside', () => {
  const keys = fc.array(fc.nat(30), { minLength: 12, maxLength: 12 }).map((all) => Int32Array.from(all));
  fc.assert(
    fc.property(keys, keys, fc.nat(), (father, mother, start) => {
      const child = new Int32Array(12);
      crossWindows(randomFrom(start), father, mother, 31, child);
      const inside = [...child.keys()].filter((a) => child[a] === mother[a]);
      const outside = [...child.keys()].filter((a) => child[a] !== mother[a]);
      for (const a of outside) {
        for (const b of outside) {
          expect(Math.sign((child[a] ?? 0) - (child[b] ?? 0))).toBe(
            Math.sign((father[a] ?? 0) - (father[b] ?? 0)),
          );
        }
        for (const b of inside) {
          expect(Math.sign((child[a] ?? 0) - (child[b] ?? 0))).toBe(
            Math.sign((father[a] ?? 0) - (father[b] ?? 0)),
          );
        }
      }
    }),
  );
});

describe('a population', () => {
  const one = (value: number, ...start: number[]) => ({ value, start: Int32Array.from(start) });
  test('has no two alike', () => {
    const population = emptyPopulation();
    expect([one(5, 1, 2), one(5, 1, 2), one(5, 2, 1)].map((each) => population.add(each))).toEqual([
      true,
      false,
      true,
    ]);
    population.replace(0, one(3, 2, 1));
    expect([...population.at(0).start]).toEqual([1, 2]);
  });
  test('gives a place up to one that is no worse', () => {
    const population = emptyPopulation();
    population.add(one(5, 1, 2));
    population.replace(0, one(6, 3, 3));
    expect(population.at(0).value).toBe(5);
    population.replace(0, one(5, 4, 4));
    expect([...population.at(0).start]).toEqual([4, 4]);
  });
  test('keeps the best when trimmed, and forgets the rest', () => {
    const population = emptyPopulation();
    for (const each of [one(7, 1), one(5, 2), one(6, 3)]) population.add(each);
    population.trim(2);
    expect([0, 1].map((index) => population.at(index).value)).toEqual([5, 6]);
    expect(population.add(one(7, 1))).toBe(true);
  });
});
