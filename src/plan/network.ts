import { at, orderGraph } from './graph.js';
import { drivingChain, earlyStarts, freeSlacks, lateDates, SAME, type Compiled } from './network/passes.js';

/** What a link ties: the start or finish of the activity before, to the start or finish of the one after. */
export type LinkKind = 'finish-start' | 'start-start' | 'finish-finish' | 'start-finish';

export type NetworkActivity = { id: string; duration: number };

/** `lag` is in the durations' unit, 0 where left out; a negative one is a lead. */
export type NetworkLink = { from: string; to: string; kind?: LinkKind; lag?: number };

export type ActivityDates = {
  earlyStart: number;
  earlyFinish: number;
  lateStart: number;
  lateFinish: number;
  /** How much later it can be without moving the end. */
  totalSlack: number;
  /** How much later it can be without moving any activity after it. */
  freeSlack: number;
};

export type CriticalPath = {
  ok: true;
  duration: number;
  dates: ReadonlyMap<string, ActivityDates>;
  /** Activities without slack, in an order that respects the links. */
  critical: string[];
  /** The chain of activities that drives the early finish of one, first to last, itself included. */
  drivenBy(id: string): string[];
};

export type NetworkFault =
  | { kind: 'cycle'; ids: string[] }
  | { kind: 'unknown-activity'; id: string }
  | { kind: 'twice'; id: string }
  | { kind: 'bad-duration'; id: string };

export type NetworkResult = CriticalPath | { ok: false; fault: NetworkFault };

export type NetworkOptions = {
  /**
   * Default true: nothing starts before 0 or may finish after the end. Without it links alone decide, as in some
   * textbooks, and the duration runs from the earliest start to the latest finish.
   */
  bounded?: boolean;
};

/**
 * Early and late dates, slack and critical path by the critical path method (Kelley & Walker 1959), with the
 * four kinds of link of the precedence method (Fondahl 1961; both from memory). Durations are in any one unit.
 * A cycle, an unknown or doubled id or a negative duration is refused by name.
 */
export function criticalPath(
  activities: readonly NetworkActivity[],
  links: readonly NetworkLink[],
  options: NetworkOptions = {},
): NetworkResult {
  const compiled = compile(activities, links);
  if ('kind' in compiled) return { ok: false, fault: compiled };
  const bounded = options.bounded ?? true;
  const starts = earlyStarts(compiled, bounded);
  const durations = Float64Array.from(activities, (activity) => activity.duration);
  const finishes = starts.map((start, node) => start + at(durations, node));
  const end = finishes.reduce((latest, finish) => Math.max(latest, finish), 0);
  const lateFinishes = lateDates(compiled, durations, end, bounded);
  const free = freeSlacks(compiled, starts, finishes, end);
  const dates = new Map<string, ActivityDates>();
  activities.forEach(({ id, duration }, node) => {
    const lateFinish = at(lateFinishes, node);
    const totalSlack = tidy(lateFinish - at(finishes, node));
    dates.set(id, {
      earlyStart: at(starts, node),
      earlyFinish: at(finishes, node),
      lateStart: lateFinish - duration,
      lateFinish,
      totalSlack,
      freeSlack: tidy(at(free, node)),
    });
  });
  const begin = bounded ? 0 : starts.reduce((earliest, start) => Math.min(earliest, start), 0);
  const idAt = (node: number): string => activities[node]?.id ?? '';
  return {
    ok: true,
    duration: end - begin,
    dates,
    critical: [...compiled.graph.order].map(idAt).filter((id) => (dates.get(id)?.totalSlack ?? 1) <= SAME),
    drivenBy: (id) => drivingChain(compiled, starts, finishes, id),
  };
}

function compile(
  activities: readonly NetworkActivity[],
  links: readonly NetworkLink[],
): Compiled | NetworkFault {
  const nodes = new Map<string, number>();
  for (const { id, duration } of activities) {
    if (nodes.has(id)) return { kind: 'twice', id };
    if (!Number.isFinite(duration) || duration < 0) return { kind: 'bad-duration', id };
    nodes.set(id, nodes.size);
  }
  const stray = links.flatMap((link) => [link.from, link.to]).find((id) => !nodes.has(id));
  if (stray !== undefined) return { kind: 'unknown-activity', id: stray };
  const from = Int32Array.from(links, (link) => nodes.get(link.from) ?? -1);
  const to = Int32Array.from(links, (link) => nodes.get(link.to) ?? -1);
  const ordered = orderGraph(activities.length, from, to);
  if (!ordered.ok) return { kind: 'cycle', ids: ordered.cycle.map((node) => activities[node]?.id ?? '') };
  return {
    activities,
    graph: ordered.graph,
    from,
    to,
    kinds: links.map((link) => link.kind ?? 'finish-start'),
    lags: Float64Array.from(links, (link) => link.lag ?? 0),
  };
}

function tidy(slack: number): number {
  return Math.abs(slack) <= SAME ? 0 : slack;
}
