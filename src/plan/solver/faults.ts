import { LARGEST_CAPACITY } from './profile.js';
import type { Problem, ProblemFault } from './problem.js';

/** More periods than this are refused: a profile is held in memory. */
export const LONGEST_HORIZON = 1_000_000;
const MOST_ACTIVITIES = 20_000;

/** What is wrong with a problem's numbers and references, if anything. */
export function problemFault(problem: Problem): ProblemFault | null {
  if (problem.activities.length > MOST_ACTIVITIES) {
    return { kind: 'too-large', what: 'activities', atMost: MOST_ACTIVITIES };
  }
  return numberFault(problem) ?? linkFault(problem) ?? capacityFault(problem);
}

/** Units of a resource in a period; the last entry of the list holds for ever. */
export function capacityIn(capacity: readonly number[], period: number): number {
  return capacity[Math.min(period, capacity.length - 1)] as number;
}

function numberFault(problem: Problem): ProblemFault | null {
  for (const [where, value, most] of wholeNumbers(problem)) {
    if (!Number.isInteger(value) || value < 0 || value > most) return { kind: 'bad-number', where, value };
  }
  for (const [index, { weight = 1 }] of problem.activities.entries()) {
    if (!Number.isFinite(weight) || weight < 0) {
      return { kind: 'bad-number', where: `weight of activity ${index}`, value: weight };
    }
  }
  return null;
}

function* wholeNumbers({ activities, links, resources }: Problem): Generator<[string, number, number]> {
  for (const [index, { duration, demands, release, due }] of activities.entries()) {
    yield [`duration of activity ${index}`, duration, LONGEST_HORIZON];
    for (const demand of demands) yield [`demand of activity ${index}`, demand, LARGEST_CAPACITY];
    yield [`release of activity ${index}`, release ?? 0, LONGEST_HORIZON];
    yield [`due date of activity ${index}`, due ?? 0, Number.MAX_SAFE_INTEGER];
  }
  for (const [index, { lag }] of links.entries()) yield [`lag of link ${index}`, lag ?? 0, LONGEST_HORIZON];
  for (const [index, { capacity }] of resources.entries()) {
    const where = `capacity of resource ${index}`;
    if (typeof capacity === 'number') yield [where, capacity, LARGEST_CAPACITY];
    else if (capacity.length === 0) yield [where, Number.NaN, 0];
    else for (const units of capacity) yield [where, units, LARGEST_CAPACITY];
  }
}

function linkFault({ activities, links }: Problem): ProblemFault | null {
  for (const [link, { from, to }] of links.entries()) {
    for (const activity of [from, to]) {
      if (!Number.isInteger(activity) || activity < 0 || activity >= activities.length) {
        return { kind: 'unknown-activity', link, activity };
      }
    }
  }
  return null;
}

/** What holds for ever must be enough for each activity alone: then there is always a schedule. */
function capacityFault({ activities, resources }: Problem): ProblemFault | null {
  for (const [index, { duration, demands }] of activities.entries()) {
    if (duration === 0) continue;
    for (const [resource, demand] of demands.entries()) {
      const capacity = resources[resource]?.capacity ?? 0;
      const atLast = typeof capacity === 'number' ? capacity : capacityIn(capacity, capacity.length);
      if (demand > atLast) return { kind: 'never-enough', activity: index, resource };
    }
  }
  return null;
}
