import type { BenchTask } from '../../plan/bench-plan.js';
import type { Forecast } from '../../plan/forecast.js';
import type { IsoDate } from '../../plan/days.js';
import type { PlanActivity, PlanModel } from '../../plan/model.js';
import type { JobState } from '../state.js';

const WAIT_DAYS_A_WEEK = 5;
const FORECAST_COUNTS = 0.25;

/**
 * A job's bench work for the shop's plan: what it waits for from outside is expected when it is as likely as not there.
 * `weight`: how much its lateness counts against that of other jobs.
 */
export function benchTasks(
  job: string,
  state: JobState,
  model: PlanModel,
  forecast: Forecast,
  weight: number,
): BenchTask[] {
  const byId = new Map(model.activities.map((activity) => [activity.id, activity]));
  const wanted = state.wantedBy.job ?? state.wantedBy.gates.reassembled ?? null;
  const hours = new Map(model.activities.map(({ id, takes }) => [id, Math.exp(takes.location)]));
  return model.activities
    .filter(({ kind, finished }) => kind === 'bench' && finished === null)
    .map(({ id }) => {
      const into = model.links.filter(({ to }) => to === id);
      const after = into.flatMap(({ from, lag }) => {
        const before = byId.get(from);
        if (before?.kind === 'bench')
          return [{ id: taskId(job, from), lagDays: Math.ceil(((lag?.days ?? 0) * WAIT_DAYS_A_WEEK) / 7) }];
        // What hasn't gone yet goes when the bench work before it is done, and is away for so long.
        return before === undefined || before.started !== null
          ? []
          : model.links
              .filter(({ to, from: earlier }) => to === from && byId.get(earlier)?.kind === 'bench')
              .map(({ from: earlier }) => ({
                id: taskId(job, earlier),
                lagDays: Math.ceil(Math.exp(before.takes.location)),
              }));
      });
      const outside = into
        .filter(({ from }) => byId.get(from)?.kind !== 'bench')
        .flatMap(({ from }): IsoDate[] => {
          const ends = forecast.activities.get(from)?.ends.even;
          return ends === undefined ? [] : [ends];
        });
      return {
        id: taskId(job, id),
        job,
        hours: hours.get(id) ?? 1,
        after,
        notBefore: outside.sort().at(-1) ?? null,
        wantedBy: wanted ?? forecast.handOver.even,
        // A day that was only forecast binds less than one that was promised.
        weight: wanted === null ? weight * FORECAST_COUNTS : weight,
        stations: stationsOf(state, byId.get(id)),
      };
    });
}

/** What a piece of work is done at besides a pair of hands; common practice, no source. */
function stationsOf(state: JobState, activity: PlanActivity | undefined): string[] {
  if (activity?.id === 'set-up') return ['lift'];
  const remedy = activity?.item == null ? null : (state.items[activity.item]?.remedy ?? null);
  if (!activity?.id.startsWith('work-')) return [];
  if (remedy === 'clean') return ['parts washer'];
  return remedy === 'make' ? ['lathe'] : [];
}

export const taskId = (job: string, activity: string): string => `${job}/${activity}`;
