import { waitingFor } from '../../job/build-order.js';
import type { Item } from '../../job/state.js';
import { isOut } from '../../job/state.js';
import type { PlannedTask } from '../../plan/bench-plan.js';
import type { ModelFault, PlanActivity } from '../../plan/model.js';
import { isOverdue } from '../../shop/round-up.js';
import type { Button, Job, Speaker } from '../answer.js';
import { delayWords, whoToRing } from '../calls.js';
import { benchHours, day } from '../figures.js';
import { taskName } from '../fortnight.js';
import type { Line } from '../lines.js';
import { bold } from '../lines.js';
import { holdsUp, promiseWords, withWhom } from '../outside.js';
import type { JobPlan } from '../plan.js';
import { delayCostOf } from '../plan.js';
import { faultLine } from '../plan-faults.js';
import { forWork } from '../terms.js';
import { itemCalled } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { fitButton } from './next.js';

/** The shop's plan as one mechanic sees it. */
export type Today = {
  /** The mechanic's place among those of the shop: errands are shared out. */
  place: number;
  mechanics: number;
  /** The mechanic's own tasks from today on, in their order. */
  tasks: readonly PlannedTask[];
  faults: ReadonlyMap<string, ModelFault>;
};

const THINGS_AT_LEAST = 3;
const THINGS_AT_MOST = 5;
const ERRANDS_AT_MOST = 2;
const BUTTONS_AT_MOST = 2;

/** Today's three to five things for one mechanic, each with why: errands that a day's delay of costs, then the bench. */
export function today(ask: Ask, mine: Today, speaker: Speaker): Reply {
  const errands = ask.jobs
    .flatMap((job) => [...calls(ask, job, speaker), ...goings(ask, job, speaker)])
    .sort((a, b) => b.cost - a.cost)
    .filter((_, index) => index % mine.mechanics === mine.place)
    .slice(0, ERRANDS_AT_MOST);
  const tasks = tasksOf(mine, errands.length, speaker);
  const rows = [...errands.map(({ line }) => line), ...tasks.map((task) => taskRow(ask, task, speaker))];
  const faults = ask.jobs.flatMap(({ id, state }) => {
    const fault = mine.faults.get(id);
    return fault ? [faultLine(state, fault, speaker)] : [];
  });
  return {
    lines: [...(rows.length > 0 ? rows : [nothingToday(ask)]), ...faults],
    buttons: tasks.flatMap((task) => doneButton(ask, task, speaker)).slice(0, BUTTONS_AT_MOST),
  };
}

/** The day's own tasks; where they are few, those that come next. */
function tasksOf({ tasks }: Today, errands: number, { today: date }: Speaker): PlannedTask[] {
  const seen = new Set<string>();
  const firsts = tasks.filter(({ id }) => !seen.has(id) && seen.add(id));
  const todays = firsts.filter((task) => task.day <= date).length;
  const wanted = Math.min(THINGS_AT_MOST, Math.max(THINGS_AT_LEAST, todays + errands));
  return firsts.slice(0, wanted - errands);
}

function taskRow(ask: Ask, task: PlannedTask, speaker: Speaker): Line {
  const job = ask.jobs.find(({ id }) => id === task.job);
  const later = task.day > speaker.today ? `, ${day(task.day, speaker)}` : '';
  const name = taskName(job?.state, task.id, speaker);
  const why = job ? whyTask(job, task, ask.plans.get(task.job), speaker) : '';
  return [bold(`• ${name}`), `, ${job?.state.title ?? ''} (${benchHours(task.hours)}${later})${why}`];
}

function whyTask({ state }: Job, task: PlannedTask, plan: JobPlan | undefined, speaker: Speaker): string {
  const activity = activityOf(task, plan);
  if (!activity) return '.';
  const critical = plan?.forecast.activities.get(activity.id)?.critical ?? 0;
  const waits = activity.step === null ? 0 : waitingFor(state.steps, activity.step);
  const behind = waits === 0 ? '' : waits === 1 ? 'one step waits for it' : `${waits} steps wait for it`;
  if (critical >= 0.5) return `: the hand-over hangs on it${behind === '' ? '' : `, and ${behind}`}.`;
  if (behind !== '') return `: ${behind}.`;
  if (activity.id.startsWith('look-')) return ': nothing can be decided, ordered or sent before.';
  const item = activity.item === null ? undefined : state.items[activity.item];
  const held = item ? holdsUp(state, item, speaker) : '';
  if (held !== '') return `: it ${held}.`;
  return state.wantedBy.job === null
    ? ': nothing is in its way.'
    : `: wanted by ${day(state.wantedBy.job, speaker)}.`;
}

const activityOf = ({ id, job }: PlannedTask, plan: JobPlan | undefined): PlanActivity | undefined =>
  plan?.model.activities.find((each) => `${job}/${each.id}` === id);

type Errand = { cost: number; line: Line };

/** Whom to ring about what is late. */
function calls(ask: Ask, { id, state }: Job, speaker: Speaker): Errand[] {
  return Object.values(state.lines)
    .filter((line) => isOverdue(line, speaker.today))
    .map((line) => {
      const cost = delayCostOf(ask.plans.get(id), line.id);
      const who = line.supplier === null ? withWhom(null, speaker) : whoToRing(line.supplier, speaker);
      const why = [promiseWords(line, speaker), reason(state.items[line.item], cost, { id, state }, speaker)];
      const about = `${itemCalled(state, line.item, speaker)}, ${state.title}`;
      return { cost, line: [bold(`• Ring ${who}`), ` about ${about}: ${said(why)}.`] };
    });
}

/** What is to be ordered or sent, and can be now. */
function goings(ask: Ask, { id, state }: Job, speaker: Speaker): Errand[] {
  const plan = ask.plans.get(id);
  if (!plan) return [];
  const held = new Set(plan.model.links.map(({ to }) => to));
  return plan.model.activities.flatMap((activity) => {
    const { kind, started, finished, item: number } = activity;
    const isGoing = (kind === 'order' || kind === 'outside') && started === null && finished === null;
    const item = number === null ? undefined : state.items[number];
    if (!isGoing || item === undefined || held.has(activity.id)) return [];
    const cost = plan.forecast.activities.get(activity.id)?.delayCost ?? 0;
    const what = `${itemCalled(state, item.number, speaker)}, ${state.title}`;
    const todo = kind === 'order' ? '• Order' : '• Send';
    const work = kind === 'order' || item.processes.length === 0 ? '' : `,${forWork(item.processes)}`;
    const why = said([reason(item, cost, { id, state }, speaker)]);
    return [{ cost, line: [bold(todo), ` ${what}${work}${why === '' ? '' : `: ${why}`}.`] }];
  });
}

function reason(item: Item | undefined, cost: number, { state }: Job, speaker: Speaker): string {
  return [item ? holdsUp(state, item, speaker) : '', delayWords(cost)]
    .filter((part) => part !== '')
    .join('; ');
}

const said = (parts: readonly string[]): string => parts.filter((part) => part !== '').join('; ');

function doneButton(ask: Ask, task: PlannedTask, speaker: Speaker): Button[][] {
  const job = ask.jobs.find(({ id }) => id === task.job);
  const step = activityOf(task, ask.plans.get(task.job))?.step;
  if (!job || step == null || task.day > speaker.today) return [];
  return [fitButton(job.id, job.state, step, speaker)].filter((row) => row.length > 0);
}

function nothingToday({ jobs }: Ask): string {
  const out = jobs.some(({ state }) => Object.values(state.lines).some(isOut));
  const asked = jobs.some(({ state }) =>
    Object.values(state.items).some(({ agreement }) => agreement.status === 'asked'),
  );
  if (out && asked) return 'Nothing for you at the bench: it all waits for suppliers and owners’ answers.';
  if (out) return 'Nothing for you at the bench: it all waits for what is out.';
  return asked ? 'Nothing for you at the bench: it waits for owners’ answers.' : 'Nothing is in the way.';
}
