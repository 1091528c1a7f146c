import type { BenchLine } from './bench-line.js';
import type { BenchTask, PlannedTask } from './types.js';

/** What is handed out, to whom, and from which half hour on the scheduler would have each task begun. */
export type ToHandOut = {
  tasks: readonly BenchTask[];
  /** By the tasks' places, in half hours of the line. */
  starts: readonly number[];
  lengthOf: (task: BenchTask) => number;
  line: BenchLine;
  /** By id. */
  mechanics: readonly string[];
  stations: Readonly<Record<string, number>>;
  /** Who was to do a task in the plan before. */
  handsBefore: (task: string) => string | undefined;
};

type Span = { from: number; to: number };
type Piece = { day: number; halfHour: number; length: number };
type Hands = { place: number; id: string; free: number; job: string };
type Offer = Span & { hands: Hands; pieces: Piece[]; liking: number };

/** A mechanic who isn't in for so many of the line's days won't be. */
const GONE_AFTER_DAYS = 3660;

/**
 * Gives each task to the mechanic who is done with it first; among equals to whoever had it before, then to whoever
 * worked on that job last. A task rests while its mechanic has a day off, and then what waits for it, or for its
 * station, comes later than the scheduler thought. Where nobody has days off each task begins when the scheduler
 * said: whoever is free then is done first.
 */
export function handOut(work: ToHandOut): PlannedTask[] {
  const { tasks, starts, line } = work;
  const hands = work.mechanics.map((id, place): Hands => ({ place, id, free: 0, job: '' }));
  const ends = new Map<string, number>();
  const held = new Map<string, Span[]>();
  const order = tasks
    .map((task, place) => ({ task, start: starts[place] ?? 0 }))
    .sort((a, b) => a.start - b.start);
  return order.flatMap(({ task, start }) => {
    const afterOthers = task.after.map(
      ({ id, lagDays }) => (ends.get(id) ?? 0) + lagDays * line.halfHoursADay,
    );
    const best = bestOffer(work, task, hands, Math.max(start, ...afterOthers), held);
    if (!best) return [];
    ends.set(task.id, best.to);
    best.hands.free = best.to;
    best.hands.job = task.job;
    for (const station of task.stations) hold(held, station, best, start);
    return best.pieces.map(({ day, halfHour, length }) => ({
      ...{ id: task.id, job: task.job, mechanic: best.hands.id },
      ...{ day: line.dateOf(day), halfHour, hours: (task.hours * length) / work.lengthOf(task) },
    }));
  });
}

function bestOffer(
  work: ToHandOut,
  task: BenchTask,
  hands: readonly Hands[],
  ready: number,
  held: ReadonlyMap<string, readonly Span[]>,
): Offer | null {
  const before = work.handsBefore(task.id);
  let best: Offer | null = null;
  for (const each of hands) {
    const pieces = piecesOf(work, task, each, ready, held);
    const [first] = pieces;
    const last = pieces.at(-1);
    if (!first || !last) continue;
    const at = ({ day, halfHour }: Piece): number => day * work.line.halfHoursADay + halfHour;
    const liking = each.id === before ? 2 : each.job === task.job ? 1 : 0;
    const offer = { from: at(first), to: at(last) + last.length, hands: each, pieces, liking };
    if (!best || offer.to < best.to || (offer.to === best.to && liking > best.liking)) best = offer;
  }
  return best;
}

/** When a mechanic would do a task, by the day; none where they are never in. */
function piecesOf(
  work: ToHandOut,
  task: BenchTask,
  hands: Hands,
  ready: number,
  held: ReadonlyMap<string, readonly Span[]>,
): Piece[] {
  for (let from = Math.max(ready, hands.free); ;) {
    const pieces = workedFrom(work.line, hands.place, from, work.lengthOf(task));
    const [first] = pieces;
    const last = pieces.at(-1);
    if (!first || !last) return [];
    const day = work.line.halfHoursADay;
    const span = { from: first.day * day + first.halfHour, to: last.day * day + last.halfHour + last.length };
    const freed = task.stations.flatMap((station) => stationFree(work, station, span, held));
    if (freed.length === 0) return pieces;
    from = Math.max(...freed);
  }
}

/** The half hour at which a station that is all taken in a span has room again; none where it has. */
function stationFree(
  { stations }: ToHandOut,
  station: string,
  { from, to }: Span,
  held: ReadonlyMap<string, readonly Span[]>,
): number[] {
  const many = stations[station];
  const there = (held.get(station) ?? []).filter((span) => span.from < to && from < span.to);
  return many === undefined || there.length < Math.max(1, many)
    ? []
    : [Math.min(...there.map((span) => span.to))];
}

function workedFrom(line: BenchLine, mechanic: number, from: number, length: number): Piece[] {
  const pieces: Piece[] = [];
  let left = length;
  let away = 0;
  let halfHour = from % line.halfHoursADay;
  for (let day = Math.floor(from / line.halfHoursADay); left > 0; day += 1, halfHour = 0) {
    if (!line.isIn(mechanic, day)) {
      away += 1;
      if (away > GONE_AFTER_DAYS) return [];
      continue;
    }
    away = 0;
    const worked = Math.min(left, line.halfHoursADay - halfHour);
    pieces.push({ day, halfHour, length: worked });
    left -= worked;
  }
  return pieces;
}

/** Nothing that comes later begins before `start`, so what has ended by then is forgotten. */
function hold(held: Map<string, Span[]>, station: string, { from, to }: Span, start: number): void {
  held.set(station, [...(held.get(station) ?? []).filter((span) => span.to > start), { from, to }]);
}
