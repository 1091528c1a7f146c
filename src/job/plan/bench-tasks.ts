import type { BenchTask } from '../../plan/bench-plan.js';
import type { Forecast } from '../../plan/forecast.js';
import type { IsoDate } from '../../plan/days.js';
import type { PlanModel } from '../../plan/model.js';
import type { JobState } from '../state.js';

const WAIT_DAYS_A_WEEK = 5;

/** A job's bench work for the shop's plan: what it waits for from outside is expected when it is as likely as not there. */
export function benchTasks(job: string, state: JobState, model: PlanModel, forecast: Forecast): BenchTask[] {
  const byId = new Map(model.activities.map((activity) => [activity.id, activity]));
  const hours = new Map(model.activities.map(({ id, takes }) => [id, Math.exp(takes.location)]));
  return model.activities
    .filter(({ kind, finished }) => kind === 'bench' && finished === null)
    .map(({ id }) => {
      const into = model.links.filter(({ to }) => to === id);
      const after = into
        .filter(({ from }) => byId.get(from)?.kind === 'bench')
        .map(({ from, lag }) => ({
          id: taskId(job, from),
          lagDays: Math.ceil(((lag?.days ?? 0) * WAIT_DAYS_A_WEEK) / 7),
        }));
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
        wantedBy: state.wantedBy.job ?? state.wantedBy.gates.reassembled ?? null,
        weight: 1,
      };
    });
}

export const taskId = (job: string, activity: string): string => `${job}/${activity}`;
