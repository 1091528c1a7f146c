import { buildOf, loopClosedBy } from '../build-order.js';
import type { JobCommand, Refusal } from '../commands.js';
import type { JobEvent } from '../events.js';
import { event } from '../events.js';
import type { Place } from '../../trade/terms.js';
import { needOf } from '../needs.js';
import type { Item, JobState } from '../state.js';
import { linesOf } from '../state.js';
import { stepForItem } from '../template.js';
import type { Bench, Decision, Draft } from './draft.js';
import { add, done, refuse, startDraft } from './draft.js';
import { recordSeen, warn } from './findings.js';
import { targetItem } from './target.js';

type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

/** Fitting a thing fits its step too, once nothing else of that step is still to come. What is fitted has come back. */
export function fit(state: JobState, command: CommandOf<'fit'>, bench: Bench): Decision {
  const targeted = targetItem(startDraft(state), command.target, bench);
  if ('refusal' in targeted) return targeted;
  const { item } = targeted;
  const seen =
    command.readings.length + command.attachments.length > 0
      ? recordSeen(
          targeted.draft,
          item,
          { ...command, stored: null, remedy: null, processes: [], supplier: null, cost: null },
          bench,
        )
      : targeted.draft;
  const isSettled = item.remedy !== null && item.remedy !== 'check';
  const kept = isSettled ? seen : add(seen, bench, keep(item));
  const here = add(kept, bench, ...comeBack(state, item, bench));
  const fitted = add(here, bench, event('item-fitted', { item: item.number }));
  const warned = warn(fitted, item.number, { act: 'fitted', processes: [] }, bench);
  return done(completeStep(warned, item, bench));
}

/** What was never spoken of before it went back on was kept; so was what was to be looked at again. */
const keep = (item: Item): JobEvent =>
  event('remedy-decided', { item: item.number, remedy: 'keep', processes: [], supplier: null });

/** Of what came in part, the rest is still to come. */
function comeBack(state: JobState, item: Item, bench: Bench): JobEvent[] {
  return linesOf(state, item.number)
    .filter((line) => line.status === 'open')
    .map(({ id }) =>
      event('line-returned', { line: id, outcome: 'all', count: null, on: bench.today, text: null }),
    );
}

/** A step is fitted with its own main thing, the first part it names, not by a small thing that goes on with it. */
function completeStep(draft: Draft, item: Item, bench: Bench): Draft {
  const id = stepForItem(draft.state.steps, item);
  const step = draft.state.steps.find((each) => each.id === id);
  if (!step || step.fitted) return draft;
  const items = buildOf(draft.state).itemsOf.get(step.id) ?? [];
  const main = items.filter(({ part }) => part !== null && part === step.parts[0]);
  const isComplete = main.length > 0 && !isOneSide(main) && items.every(({ fitted }) => fitted);
  return isComplete ? add(draft, bench, event('step-fitted', { step: step.id })) : draft;
}

/** A left one without a right one is half of the step, whether the other is on the list or not. */
function isOneSide(items: readonly Item[]): boolean {
  const has = (side: Place): boolean => items.some(({ place }) => place.includes(side));
  return has('left') !== has('right');
}

export function fitStep(state: JobState, command: CommandOf<'fit-step'>, bench: Bench): Decision {
  const step = state.steps.find((each) => each.id === command.step);
  if (!step) return refuse({ why: 'no-such-step', step: command.step });
  if (step.fitted) return { events: [] };
  const items = buildOf(state).itemsOf.get(step.id) ?? [];
  const here = items.filter((item) => !item.fitted && needOf(state, item, bench.rules).kind === 'nothing');
  return {
    events: [
      ...here.map((item) => event('item-fitted', { item: item.number })),
      event('step-fitted', { step: step.id }),
    ],
  };
}

/** Taking a step apart again takes its things off, and leaves the steps built on it to the mechanic's word. */
export function undoStep(state: JobState, command: CommandOf<'undo-step'>): Decision {
  const step = state.steps.find((each) => each.id === command.step);
  if (!step) return refuse({ why: 'no-such-step', step: command.step });
  const items = (buildOf(state).itemsOf.get(step.id) ?? []).filter((item) => item.fitted);
  return {
    events: [
      event('step-undone', { step: step.id }),
      ...items.map((item) => event('item-taken-off', { item: item.number })),
    ],
  };
}

export function addStep(state: JobState, command: CommandOf<'add-step'>): Decision {
  const missing = missingStep(state, [...command.after, ...command.before]);
  if (missing) return refuse(missing);
  const { name, after, before, parts, hours } = command;
  const loop = loopThrough(state, after, before);
  if (loop) return refuse({ why: 'loop', steps: loop });
  return { events: [event('step-added', { step: nextStep(state), name, after, before, parts, hours })] };
}

/** A step put between others closes a loop where one that it must come after already waits for one that it must come before. */
function loopThrough(state: JobState, after: readonly string[], before: readonly string[]): string[] | null {
  const loops = before.flatMap((last) => after.map((first) => loopClosedBy(state.steps, last, first)));
  return loops.find((loop) => loop !== null) ?? null;
}

export function linkStep(state: JobState, command: CommandOf<'link-step'>): Decision {
  const { step, after, linked } = command;
  const missing = missingStep(state, [step, after]);
  if (missing) return refuse(missing);
  const loop = linked ? loopClosedBy(state.steps, step, after) : null;
  return loop
    ? refuse({ why: 'loop', steps: loop })
    : { events: [event('step-linked', { step, after, linked })] };
}

export function dropStep(state: JobState, command: CommandOf<'drop-step'>): Decision {
  const missing = missingStep(state, [command.step]);
  return missing ? refuse(missing) : { events: [event('step-dropped', { step: command.step })] };
}

export function timeStep(state: JobState, command: CommandOf<'time-step'>): Decision {
  const missing = missingStep(state, [command.step]);
  const { step, hours } = command;
  return missing ? refuse(missing) : { events: [event('step-timed', { step, hours })] };
}

function missingStep(state: JobState, ids: readonly string[]): Refusal | null {
  const missing = ids.find((id) => !state.steps.some((step) => step.id === id));
  return missing === undefined ? null : { why: 'no-such-step', step: missing };
}

const nextStep = (state: JobState): string => `added-${state.version + 1}`;
