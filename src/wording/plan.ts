import { promiseOf } from '../job/state.js';
import type { JobState } from '../job/state.js';
import type { Forecast } from '../plan/forecast.js';
import type { PlanActivity, PlanModel } from '../plan/model.js';
import type { Timeline } from '../plan/picture/timeline.js';
import { timelineRows } from '../plan/picture/timeline-rows.js';
import type { WhatIf } from '../plan/what-if.js';
import type { Answer, Job, Speaker } from './answer.js';
import { plain } from './answer.js';
import { day, shortDay } from './figures.js';
import { bold, capital, counted, joined, message } from './lines.js';
import { gateName } from './terms.js';
import { itemCalled, stepName, thingName } from './things.js';

/** A job's model with what was forecast of it. */
export type JobPlan = { model: PlanModel; forecast: Forecast };

/** A date with its chances in words: 'by Fri 13 March as likely as not, by Tue 24 March four chances in five'. */
export function chances({ even, safe, beyondHorizon }: Forecast['handOver'], speaker: Speaker): string {
  if (beyondHorizon) return 'too far off to name a day';
  if (even === safe) return `by ${day(safe, speaker)}, four chances in five`;
  return `by ${day(even, speaker)} as likely as not, by ${day(safe, speaker)} four chances in five`;
}

/** By how many days the hand-over moves for each working day that a line is later; 0 where nothing is forecast of it. */
export function delayCostOf(plan: JobPlan | undefined, line: string): number {
  const activity = plan?.model.activities.find((each) => each.line === line && each.finished === null);
  return (activity && plan?.forecast.activities.get(activity.id)?.delayCost) ?? 0;
}

/** What an activity of the plan is, in a few words. */
export function activityName(state: JobState, activity: PlanActivity, speaker: Speaker): string {
  const step = state.steps.find(({ id }) => id === activity.step);
  if (step) return stepName(step, speaker);
  if (activity.item === null) return activity.id === 'ride' ? 'the road test' : 'setting up';
  const item = itemCalled(state, activity.item, speaker);
  switch (activity.kind) {
    case 'answer':
      return `the owner’s yes to ${item}`;
    case 'order':
    case 'outside':
      return activity.supplier === null
        ? `${item} coming`
        : `${item} from ${speaker.name(activity.supplier)}`;
    case 'bench':
      return item;
  }
}

/** What drives the hand-over and is not bench work of the build order: first what a day's delay of costs most. */
export function driversOf({ state }: Job, { model, forecast }: JobPlan, speaker: Speaker): string[] {
  const chain = new Set(forecast.handOver.chain);
  return model.activities
    .filter(
      ({ id, finished, step }) =>
        chain.has(id) && finished === null && step === null && id !== 'set-up' && id !== 'ride',
    )
    .sort((a, b) => weightOf(forecast, b.id) - weightOf(forecast, a.id))
    .map((activity) => activityName(state, activity, speaker));
}

/** A day's cost; where two cost the same, how often each is on the critical path decides. */
function weightOf({ activities }: Forecast, id: string): number {
  const of = activities.get(id);
  return of ? (of.delayCost ?? 0) + of.critical / 1000 : 0;
}

/** A supposition answered with what moves. */
export function supposedText(title: string, { handOver, gates }: WhatIf, speaker: Speaker): Answer {
  const moved = [...gates]
    .filter(([, shift]) => shift.safe !== 0)
    .map(([gate, shift]) => `${gateName(gate)} ${later(shift.safe)}`);
  const lines = [
    [bold(title), `: ready ${chances(handOver.after, speaker)}.`],
    handOver.safe === 0 && handOver.even === 0
      ? `That moves nothing: it stays as it is now.`
      : `${capital(later(handOver.safe))} than as things are (${chances(handOver.before, speaker)}).`,
    ...(moved.length > 0 ? [`Gates: ${joined(moved)}.`] : []),
  ];
  return message(lines);
}

function later(days: number): string {
  if (days === 0) return 'no later';
  return `${counted(Math.abs(days), 'day')} ${days > 0 ? 'later' : 'sooner'}`;
}

export function nothingToSuppose(): Answer {
  return plain(
    'Nothing waits for that, so it moves nothing. Name a thing that is still to come, or who has it.',
  );
}

export function noPicture(): Answer {
  return plain('I could not draw that: there is nothing left to plan, or no room to keep the picture.');
}

export const pictureCaption = (title: string): string => `${title}: how it stands and what is to come`;

const ROWS_AT_MOST = 9;

/** The words and rows of a job's timeline picture. */
export function timelineOf(job: Job, { model, forecast }: JobPlan, speaker: Speaker): Timeline {
  const { state } = job;
  const { handOver } = forecast;
  const speech = {
    label: (activities: readonly PlanActivity[]) => rowLabel(state, activities, speaker),
    note: (
      _: readonly PlanActivity[],
      { state: is, safe, even }: { state: string; safe: string; even: string },
    ) => (is === 'done' ? shortDay(even, speaker) : `by ${shortDay(safe, speaker)}`),
    promised: (activity: PlanActivity) => {
      const line = activity.line === null ? undefined : state.lines[activity.line];
      return line ? (promiseOf(line)?.due ?? null) : null;
    },
  };
  const { rows, leftOut } = timelineRows(model, forecast, speech, ROWS_AT_MOST);
  return {
    title: state.title,
    lead: [`Ready by ${day(handOver.safe, speaker)}, four chances in five.`],
    today: speaker.today,
    goal: {
      label: 'Handed over',
      note: `by ${shortDay(handOver.safe, speaker)}`,
      early: handOver.early,
      even: handOver.even,
      safe: handOver.safe,
    },
    rows,
    more: leftOut > 0 ? `and ${leftOut} more to come` : '',
    words: {
      today: 'today',
      done: 'done',
      away: 'away',
      bench: 'at the bench',
      answer: 'owner’s answer',
      unsure: 'may take till',
      promised: 'promised',
      late: 'late',
      holds: 'holds it up',
    },
    locale: 'en-GB',
  };
}

function rowLabel(state: JobState, activities: readonly PlanActivity[], speaker: Speaker): string {
  const [first] = activities;
  if (!first) return '';
  if (first.kind === 'bench')
    return first.gate === null ? 'At the bench' : `At the bench, to ${gateName(first.gate)}`;
  if (first.kind === 'answer') return 'Owner’s answer';
  const things = activities.flatMap(({ item }) => {
    const found = item === null ? undefined : state.items[item];
    return found ? [thingName(found, speaker)] : [];
  });
  const who = first.supplier === null ? '' : `${speaker.name(first.supplier)}: `;
  return `${who}${joined(things, 3)}`;
}
