import { blockersOf } from '../../job/blockers.js';
import { buildOf } from '../../job/build-order.js';
import { nextGate } from '../../job/gates.js';
import type { Item, JobState, Line as OutLine } from '../../job/state.js';
import { isOut, openLineOf, promiseOf } from '../../job/state.js';
import { stepForItem } from '../../job/template.js';
import type { Button, Job, Speaker } from '../answer.js';
import { benchHours, day } from '../figures.js';
import { whereabouts } from '../item-words.js';
import type { Line } from '../lines.js';
import { bold, counted, joined } from '../lines.js';
import { outWords } from '../outside.js';
import type { JobPlan } from '../plan.js';
import { chances, driversOf } from '../plan.js';
import { faultLine } from '../plan-faults.js';
import { itemCalled, itemName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem, notListed, rulesOf } from './ask.js';

/** When a thing or the job may be ready: from what was promised and the build's hours, and no day that nobody gave. */
export function ready(ask: Ask, speaker: Speaker): Reply {
  if (!namesItem(ask)) {
    const pictured = ask.jobs.filter(({ id }) => ask.plans.has(id)).slice(0, 1);
    return {
      lines: ask.jobs.flatMap((job) => jobReady(ask, job, speaker)),
      buttons: pictured.map(({ id }): Button[] => [
        { label: 'As a picture', action: { do: 'show-timeline', job: id } },
      ]),
    };
  }
  const lines = ask.jobs.flatMap(({ state }) =>
    itemsAsked(state, ask).map((item): Line => {
      const line = openLineOf(state, item.number);
      return [
        bold(itemName(item, speaker)),
        `: ${line ? outWords(line, speaker) : whereabouts(state, item, speaker)}.`,
      ];
    }),
  );
  return lines.length > 0 ? { lines } : notListed(ask);
}

function jobReady(ask: Ask, job: Job, speaker: Speaker): Line[] {
  const { state } = job;
  const title = bold(state.title);
  if (state.status === 'handed-over') return [[title, ': handed over.']];
  if (nextGate(state) === null) return [[title, ': ready; it can be handed over.']];
  const fault = ask.faults.get(job.id);
  if (fault) return [faultLine(state, fault, speaker)];
  const out = Object.values(state.lines).filter(isOut);
  const plan = ask.plans.get(job.id);
  if (plan)
    return [
      [title, `: ready ${chances(plan.forecast.handOver, speaker)}.`],
      ...drivers(job, plan, speaker),
      ...reserves(ask, state, out, speaker),
    ];
  const promised = out.filter((line) => (promiseOf(line)?.due ?? '') >= speaker.today);
  const last = promised.sort((a, b) => dueOf(a).localeCompare(dueOf(b))).at(-1);
  const left = hoursLeft(state);
  const first = last
    ? `not before ${day(dueOf(last), speaker)}: ${itemCalled(state, last.item, speaker)} is promised then${afterIt(state, state.items[last.item])}.`
    : left > 0
      ? `no day promised to reckon from; about ${benchHours(left)} at the bench are left.`
      : 'nothing is left in the build order; setting up and the road test are.';
  return [[title, `: ${first}`], ...reserves(ask, state, out, speaker)];
}

/** What the day hangs on most, apart from the build itself. */
function drivers(job: Job, plan: JobPlan, speaker: Speaker): Line[] {
  const found = driversOf(job, plan, speaker);
  return found.length > 0 ? [`It hangs on ${joined(found, 3)}.`] : [];
}

const dueOf = (line: OutLine): string => promiseOf(line)?.due ?? '';

/** Why a day can't be counted on: what is late, what has no date, what hasn't even gone. */
function reserves(ask: Ask, state: JobState, out: readonly OutLine[], speaker: Speaker): Line[] {
  const names = (lines: readonly OutLine[]): string =>
    joined(
      lines.map(({ item }) => itemCalled(state, item, speaker)),
      4,
    );
  const late = out.filter((line) => promiseOf(line) !== null && dueOf(line) < speaker.today);
  const undated = out.filter((line) => promiseOf(line) === null);
  const toDo = blockersOf(state, 'reassembled', rulesOf(ask)).filter(({ kind }) =>
    [
      'unseen',
      'undecided',
      'owner-said-no',
      'check-again',
      'owner-yes',
      'not-ordered',
      'still-here',
      'send-again',
    ].includes(kind),
  ).length;
  return [
    ...(late.length > 0 ? [`Overdue already: ${names(late)}.`] : []),
    ...(undated.length > 0 ? [`No date for ${names(undated)}.`] : []),
    ...(toDo > 0 ? [`And ${counted(toDo, 'thing')} still to be looked at, decided, ordered or sent.`] : []),
  ];
}

/** The bench hours of an item's step and all that waits for it. */
function afterIt(state: JobState, item: Item | undefined): string {
  const id = item ? stepForItem(state.steps, item) : null;
  const held = new Set(id === null ? [] : [id]);
  let hours = 0;
  for (const step of buildOf(state).steps) {
    if (step.after.some((before) => held.has(before))) held.add(step.id);
    if (held.has(step.id) && !step.fitted) hours += step.hours;
  }
  return hours === 0 ? '' : `, and about ${benchHours(hours)} at the bench come after it`;
}

function hoursLeft(state: JobState): number {
  return state.steps.filter(({ fitted }) => !fitted).reduce((sum, { hours }) => sum + hours, 0);
}
