import type { Forecast } from '../forecast.js';
import type { IsoDate } from '../days.js';
import type { PlanActivity, PlanModel } from '../model.js';
import type { RowState, TimelineRow } from './timeline.js';

/** What is said of a row's activities: those of one parcel out, or the bench work of one gate. */
export type RowSpeech = {
  label(activities: readonly PlanActivity[]): string;
  note(activities: readonly PlanActivity[], row: Omit<TimelineRow, 'label' | 'note'>): string;
  /** The date promised for an activity, if any. */
  promised(activity: PlanActivity): IsoDate | null;
};

export type PickedRows = { rows: TimelineRow[]; leftOut: number };

/** On the critical path so often, a thing holds the job up. */
const HOLDS = 0.3;
const MOST_DONE = 2;

/**
 * A job's rows for the picture, the `most` that matter: first what is late or holds the job up, then what is out, then
 * what is to come, and the last two things done. Things that went to one supplier on one day are one row, and so
 * is the bench work of each gate. In the order in which they begin.
 */
export function timelineRows(
  model: PlanModel,
  forecast: Forecast,
  speech: RowSpeech,
  most: number,
): PickedRows {
  const groups = new Map<string, PlanActivity[]>();
  for (const activity of model.activities) {
    const key = groupOf(activity);
    groups.set(key, [...(groups.get(key) ?? []), activity]);
  }
  const all = [...groups.values()].map((activities) => ({
    activities,
    ...bare(model, forecast, activities, speech),
  }));
  const done = all.filter((row) => row.state === 'done').sort((a, b) => compare(b.even, a.even));
  const ahead = all.filter((row) => row.state !== 'done').sort((a, b) => b.weight - a.weight);
  const room = Math.max(0, most - Math.min(MOST_DONE, done.length));
  const picked = [...done.slice(0, MOST_DONE), ...ahead.slice(0, room)].sort(
    (a, b) => compare(a.begins, b.begins) || compare(a.even, b.even),
  );
  const rows = picked.map(({ activities, weight: _weight, ...row }) => ({
    ...row,
    label: speech.label(activities),
    note: speech.note(activities, row),
  }));
  return { rows, leftOut: Math.max(0, ahead.length - room) };
}

function groupOf(activity: PlanActivity): string {
  const { id, kind, gate, supplier, started, finished } = activity;
  const when = finished === null ? 'ahead' : 'done';
  if (kind === 'bench') return JSON.stringify([kind, gate, when]);
  return JSON.stringify(supplier === null || started === null ? [kind, id] : [kind, supplier, started, when]);
}

function bare(model: PlanModel, forecast: Forecast, activities: readonly PlanActivity[], speech: RowSpeech) {
  const dates = activities.flatMap((activity) => forecast.activities.get(activity.id) ?? []);
  const latest = (pick: (row: (typeof dates)[number]) => IsoDate): IsoDate =>
    dates.map(pick).reduce((last, date) => (date > last ? date : last), '');
  const done = activities.every((activity) => activity.finished !== null);
  const critical = Math.max(0, ...dates.map((row) => row.critical));
  const promises = activities.flatMap((activity) =>
    activity.finished === null ? (speech.promised(activity) ?? []) : [],
  );
  const promised = promises.sort().at(-1) ?? null;
  const late = promises.some((date) => date < model.today);
  const begins = dates
    .map((row) => row.begins)
    .reduce((first, date) => (date < first ? date : first), '9999-12-31');
  const out = activities.some((activity) => activity.started !== null && activity.finished === null);
  return {
    state: done ? ('done' as const) : stateOf(activities[0]?.kind ?? 'bench'),
    begins,
    even: latest((row) => row.ends.even),
    safe: latest((row) => row.ends.safe),
    promised,
    late,
    holds: !done && critical >= HOLDS,
    weight: (late ? 2 : 0) + critical * 2 + (out ? 0.5 : 0),
  };
}

function stateOf(kind: PlanActivity['kind']): RowState {
  switch (kind) {
    case 'bench':
      return 'bench';
    case 'outside':
    case 'order':
      return 'away';
    case 'answer':
      return 'answer';
  }
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
