import { buildOf } from '../../job/build-order.js';
import type { Attachment } from '../../job/events.js';
import type { RecordedJobEvent } from '../../job/evolve.js';
import type { JobState } from '../../job/state.js';
import type { Speaker } from '../answer.js';
import { benchHours, day } from '../figures.js';
import { findingWords } from '../item-words.js';
import type { Line } from '../lines.js';
import { capital, joined } from '../lines.js';
import { gateName } from '../terms.js';
import { faultName, itemCalled, stepName } from '../things.js';
import type { Told } from './told.js';

/** What was recorded of the job itself rather than of one thing on it. */
export function jobLines({ state, before, events }: Told, speaker: Speaker): Line[] {
  const fitted = events.flatMap((event) => (event.type === 'step-fitted' ? [event.data.step] : []));
  const checked = events.flatMap((event) => (event.type === 'check-done' ? [event.data.check] : []));
  return [
    ...stepsDone(fitted, state, speaker),
    ...checksDone(checked, state),
    ...(events.every(isOfNotice) ? noticesSettled(events) : []),
    ...events.flatMap((event) => lineFor(event, state, before, speaker)),
  ];
}

function stepsDone(ids: readonly string[], state: JobState, speaker: Speaker): Line[] {
  const steps = buildOf(state).steps.map((step) => ({ id: step.id, name: `“${stepName(step, speaker)}”` }));
  const { words, count } = named(steps, ids);
  if (count === 0) return [];
  return [
    count <= NAMED_ALONE ? `Build order: ${words} done.` : `Build order: ${count} steps done, ${words}.`,
  ];
}

function checksDone(ids: readonly string[], { checks }: JobState): Line[] {
  if (ids.length === 0) return [];
  const { words, count } = named(
    checks.map(({ id, name }) => ({ id, name: `“${name}”` })),
    ids,
  );
  const left = checks.filter(({ doneAt }) => doneAt === null).length;
  const still = left > 0 ? `${left} still to do` : count > 1 ? 'All are done' : 'That was the last check';
  const what =
    count === 0
      ? 'Checked: setting up'
      : count <= NAMED_ALONE
        ? `Checked: ${words}`
        : `${count} checks done, ${words}`;
  return [`${what}. ${still}.`];
}

const NAMED_ALONE = 3;

type Named = { id: string; name: string };

/** Some of a list in words: a few by name, a run by its first and last, of others the first few. */
function named(list: readonly Named[], ids: readonly string[]): { words: string; count: number } {
  const done = list.filter(({ id }) => ids.includes(id));
  const names = done.map(({ name }) => name);
  const from = list.findIndex(({ id }) => id === done[0]?.id);
  const isRun = done.every(({ id }, index) => list[from + index]?.id === id);
  const words =
    isRun && done.length > NAMED_ALONE
      ? `from ${names[0] ?? ''} to ${names.at(-1) ?? ''}`
      : joined(names, NAMED_AT_MOST);
  return { words, count: done.length };
}

const NAMED_AT_MOST = 12;

const isOfNotice = ({ type }: RecordedJobEvent): boolean =>
  type === 'notice-released' || type === 'notice-dropped';

/** What a button did with notices; those that a new finding drops by the way need no word. */
function noticesSettled(events: readonly RecordedJobEvent[]): Line[] {
  return events.map(({ type }) =>
    type === 'notice-released' ? 'The notice goes to the owner in their hours.' : 'That notice won’t go.',
  );
}

function lineFor(event: RecordedJobEvent, state: JobState, before: JobState, speaker: Speaker): Line[] {
  const step = (id: string): string => {
    const found = [...state.steps, ...before.steps].find((each) => each.id === id);
    return found ? `“${stepName(found, speaker)}”` : 'a step';
  };
  switch (event.type) {
    case 'job-opened':
      return [`${event.data.title} is in.`];
    case 'arrival-noted':
      return ['What it arrived with is noted.'];
    case 'owner-named':
      return [`${speaker.name(event.data.owner)} is down as the owner.`];
    case 'note-kept':
      return event.data.item === null ? [keptNote(event.data.attachments)] : [];
    case 'step-undone':
      return [`Build order: ${step(event.data.step)} is apart again.`];
    case 'step-added':
      return [
        `Build order: ${step(event.data.step)} added, ${benchHours(event.data.hours)}. Say “build order” to see it.`,
      ];
    case 'step-dropped':
      return [`Build order: ${step(event.data.step)} dropped.`];
    case 'step-linked': {
      const { step: id, after, linked } = event.data;
      return [`Build order: ${step(id)} ${linked ? 'comes' : 'no longer has to come'} after ${step(after)}.`];
    }
    case 'step-timed':
      return [`Build order: ${step(event.data.step)} takes ${benchHours(event.data.hours)}.`];
    case 'road-tested':
      return [event.data.outcome === 'pass' ? 'Road test: passed.' : 'Road test: not right yet.'];
    case 'fault-found': {
      const found = state.faults.find(({ number }) => number === event.data.fault);
      const on = event.data.item === null ? '' : `, on ${itemCalled(state, event.data.item, speaker)}`;
      return found
        ? [`${capital(faultName(found, speaker))}${on}. Say “fault ${found.number} fixed” when it is.`]
        : [];
    }
    case 'fault-cleared':
      return [`Fault ${event.data.fault} put right.`];
    case 'yes-asked':
      return [
        `${ownerName(state, speaker)} will be asked about ${itemNames(state, event.data.items, speaker)}.`,
      ];
    case 'owner-answered':
      return [answered(event.data, state, speaker)];
    case 'wanted-by-set': {
      const { gate, date } = event.data;
      const what = gate === null ? 'The whole job' : capital(gateName(gate));
      return [
        date === null ? `${what}: no longer wanted by a day.` : `${what} wanted by ${day(date, speaker)}.`,
      ];
    }
    case 'gate-passed':
      return [`Passed: ${gateName(event.data.gate)}.`];
    case 'handed-over':
      return [`Handed over on ${day(event.data.on, speaker)}.`];
    case 'message-undone':
      return ['Taken back.'];
    case 'step-fitted':
    case 'check-done':
    case 'notice-released':
    case 'notice-dropped':
    case 'gate-reopened':
    case 'caution-given':
    case 'item-listed':
    case 'item-corrected':
    case 'item-taken-off':
    case 'item-stored':
    case 'item-fitted':
    case 'finding-logged':
    case 'remedy-decided':
    case 'cost-noted':
    case 'work-done':
    case 'line-opened':
    case 'line-placed':
    case 'promise-made':
    case 'line-answered':
    case 'line-returned':
    case 'notice-drafted':
    case 'attachment-fetched':
    case 'attachment-lost':
      return [];
  }
}

function keptNote(attachments: readonly Attachment[]): string {
  const kept = findingWords({ conditions: [], readings: [], attachments: [...attachments] });
  return kept === '' ? 'Kept as a note, in your words.' : `${capital(kept)} kept.`;
}

type Answered = Extract<RecordedJobEvent, { type: 'owner-answered' }>['data'];

function answered({ items, outcome }: Answered, state: JobState, speaker: Speaker): string {
  const owner = ownerName(state, speaker);
  const names = itemNames(state, items, speaker);
  if (items.length === 0) return `${owner}’s answer is noted, though nothing was waiting for one.`;
  switch (outcome) {
    case 'yes':
      return `${owner} says yes to ${names}.`;
    case 'no':
      return `${owner} says no to ${names}. Say what to do instead.`;
    case 'talk':
      return `${owner} would like to talk about ${names}.`;
  }
}

export function ownerName(state: JobState, speaker: Speaker): string {
  return state.owner === null ? 'The owner' : speaker.name(state.owner);
}

function itemNames(state: JobState, items: readonly number[], speaker: Speaker): string {
  return joined(
    items.map((number) => itemCalled(state, number, speaker)),
    8,
  );
}
