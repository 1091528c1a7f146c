import { setUpOf, stepsOf } from '../template.js';
import type { JobEvent } from '../events.js';
import type { JobState, Step } from '../state.js';
import { loopClosedBy } from '../build-order.js';
import type { When } from './items.js';

type EventOf<T extends JobEvent['type']> = Extract<JobEvent, { type: T }>;

export function openJob(state: JobState, { data }: EventOf<'job-opened'>, when: When): JobState {
  return {
    ...state,
    status: 'open',
    title: data.title,
    model: data.model,
    template: data.template,
    owner: data.owner,
    arrivedOn: data.arrivedOn,
    openedAt: when.at,
    steps: stepsOf(data.template),
    checks: setUpOf(data.template),
  };
}

export function withStep(state: JobState, id: string, change: (step: Step) => Partial<Step>): JobState {
  return {
    ...state,
    steps: state.steps.map((step) => (step.id === id ? { ...step, ...change(step) } : step)),
  };
}

export function addStep(state: JobState, { data }: EventOf<'step-added'>): JobState {
  const step: Step = {
    id: data.step,
    name: { kind: 'said', text: data.name },
    parts: data.parts,
    groups: [],
    place: null,
    after: data.after,
    hours: data.hours,
    watch: null,
    waits: [],
    fitted: false,
    fittedAt: null,
  };
  const added = { ...state, steps: [...state.steps, step] };
  return data.before.reduce<JobState>((before, id) => link(before, id, step.id), added);
}

/** An undo may bring back a link that a later one would close into a loop: the later one then falls away. */
function link(state: JobState, id: string, after: string): JobState {
  if (loopClosedBy(state.steps, id, after)) return state;
  return withStep(state, id, (step) => ({ after: [...new Set([...step.after, after])] }));
}

/** What came after a dropped step comes after what that step waited for. */
export function dropStep(state: JobState, { data }: EventOf<'step-dropped'>): JobState {
  const dropped = state.steps.find((step) => step.id === data.step);
  if (!dropped) return state;
  const steps = state.steps
    .filter((step) => step.id !== data.step)
    .map((step) =>
      step.after.includes(data.step)
        ? { ...step, after: [...new Set([...step.after.filter((id) => id !== data.step), ...dropped.after])] }
        : step,
    );
  return { ...state, steps };
}

export function linkStep(state: JobState, { data }: EventOf<'step-linked'>): JobState {
  if (data.linked) return link(state, data.step, data.after);
  return withStep(state, data.step, (step) => ({ after: step.after.filter((id) => id !== data.after) }));
}

export function doCheck(state: JobState, { data }: EventOf<'check-done'>, when: When): JobState {
  return {
    ...state,
    checks: state.checks.map((check) => (check.id === data.check ? { ...check, doneAt: when.at } : check)),
  };
}

export function findFault(state: JobState, { data }: EventOf<'fault-found'>, when: When): JobState {
  const fault = { number: data.fault, item: data.item, text: data.text, foundAt: when.at, clearedAt: null };
  return { ...state, faults: [...state.faults, fault] };
}

export function clearFault(state: JobState, { data }: EventOf<'fault-cleared'>, when: When): JobState {
  return {
    ...state,
    faults: state.faults.map((fault) =>
      fault.number === data.fault ? { ...fault, clearedAt: when.at } : fault,
    ),
  };
}
