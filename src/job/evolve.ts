import type { JobEvent } from './events.js';
import * as build from './evolve/build.js';
import * as items from './evolve/items.js';
import { withItem } from './evolve/items.js';
import * as lines from './evolve/lines.js';
import { withMessage } from './messages-said.js';
import type { JobState, Notice } from './state.js';

/** An event as the record gives it back: with its place in the stream, when it happened and who did it. */
export type RecordedJobEvent = JobEvent & { version: number; at: number; by: string; message?: string };

/** The state after one more event. `message-undone` has no effect here: undoing takes the whole list, see `foldJob`. */
export function evolve(state: JobState, event: RecordedJobEvent): JobState {
  const after = apply(state, event);
  const { message, at: lastEventAt, version } = event;
  const isOfMessage = message !== undefined && event.type !== 'message-undone';
  const messages = isOfMessage ? withMessage(after.messages, message) : after.messages;
  return { ...after, lastEventAt, version, messages };
}

function apply(state: JobState, event: RecordedJobEvent): JobState {
  switch (event.type) {
    case 'job-opened':
      return build.openJob(state, event, event);
    case 'arrival-noted':
      return { ...state, arrival: [...state.arrival, event.data] };
    case 'owner-named':
      return { ...state, owner: event.data.owner };
    case 'item-listed':
      return items.listItem(state, event, event);
    case 'item-corrected':
      return items.correctItem(state, event);
    case 'item-taken-off':
      return withItem(state, event.data.item, () => ({ takenOff: true, fitted: false }));
    case 'item-stored':
      return withItem(state, event.data.item, () => ({ stored: event.data.stored }));
    case 'finding-logged':
      return items.logFinding(state, event, event);
    case 'remedy-decided':
      return items.decideRemedy(state, event, event);
    case 'cost-noted':
      return withItem(state, event.data.item, () => ({ cost: event.data.cost }));
    case 'work-done':
      return withItem(state, event.data.item, () => ({ workDone: true }));
    case 'line-opened':
      return lines.openLine(state, event, event);
    case 'line-placed':
      return lines.placeLine(state, event);
    case 'promise-made':
      return lines.makePromise(state, event, event);
    case 'line-answered':
      return lines.answerLine(state, event, event);
    case 'line-returned':
      return lines.returnLine(state, event);
    case 'step-fitted':
      return build.withStep(state, event.data.step, () => ({ fitted: true, fittedAt: event.at }));
    case 'step-undone':
      return build.withStep(state, event.data.step, () => ({ fitted: false, fittedAt: null }));
    case 'item-fitted':
      return withItem(state, event.data.item, () => ({ fitted: true, stored: null }));
    case 'step-added':
      return build.addStep(state, event);
    case 'step-dropped':
      return build.dropStep(state, event);
    case 'step-linked':
      return build.linkStep(state, event);
    case 'step-timed':
      return build.withStep(state, event.data.step, () => ({ hours: event.data.hours }));
    case 'check-done':
      return build.doCheck(state, event, event);
    case 'road-tested':
      return { ...state, roadTest: { ...event.data, at: event.at } };
    case 'fault-found':
      return build.findFault(state, event, event);
    case 'fault-cleared':
      return build.clearFault(state, event, event);
    case 'yes-asked':
      return items.askYes(state, event, event);
    case 'owner-answered':
      return items.answerOwner(state, event, event);
    case 'wanted-by-set':
      return setWantedBy(state, event.data, event.at);
    case 'gate-passed':
      return setGate(state, event.data.gate, { passed: true, at: event.at, everPassed: true });
    case 'gate-reopened':
      return setGate(state, event.data.gate, { passed: false, at: event.at, everPassed: true });
    case 'notice-drafted':
      return {
        ...state,
        notices: [
          ...state.notices,
          {
            id: event.data.notice,
            about: event.data.about,
            gate: event.data.gate,
            draftedAt: event.at,
            releasedAt: null,
            status: 'drafted',
          },
        ],
      };
    case 'notice-released':
      return settleNotice(state, event.data.notice, { status: 'released', releasedAt: event.at });
    case 'notice-dropped':
      return settleNotice(state, event.data.notice, { status: 'dropped' });
    case 'note-kept':
      return { ...state, notes: [...state.notes, { ...event.data, at: event.at, by: event.by }] };
    case 'attachment-fetched':
      return { ...state, fetched: { ...state.fetched, [event.data.unique]: { hash: event.data.hash } } };
    case 'attachment-lost':
      return { ...state, fetched: { ...state.fetched, [event.data.unique]: { lost: event.data.why } } };
    case 'caution-given':
      return withItem(state, event.data.item, (item) => ({
        cautions: [...item.cautions, event.data.caution],
      }));
    case 'message-undone':
      return state;
    case 'handed-over':
      return { ...state, status: 'handed-over', handedOverOn: event.data.on };
  }
}

type WantedBySet = Extract<JobEvent, { type: 'wanted-by-set' }>['data'];

function setWantedBy(state: JobState, { gate, date }: WantedBySet, at: number): JobState {
  const setAt = { ...state.wantedBy.setAt, [gate ?? 'job']: at };
  if (gate === null) return { ...state, wantedBy: { ...state.wantedBy, job: date, setAt } };
  const gates = { ...state.wantedBy.gates };
  if (date === null) delete gates[gate];
  else gates[gate] = date;
  return { ...state, wantedBy: { ...state.wantedBy, gates, setAt } };
}

function setGate<G extends keyof JobState['gates']>(
  state: JobState,
  gate: G,
  to: JobState['gates'][G],
): JobState {
  return { ...state, gates: { ...state.gates, [gate]: to } };
}

function settleNotice(state: JobState, id: string, change: Partial<Notice>): JobState {
  return {
    ...state,
    notices: state.notices.map((notice) => (notice.id === id ? { ...notice, ...change } : notice)),
  };
}
