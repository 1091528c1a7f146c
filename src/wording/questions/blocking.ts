import type { Blocker, BlockerKind } from '../../job/blockers.js';
import { blockersOf } from '../../job/blockers.js';
import { nextGate, onOffer } from '../../job/gates.js';
import type { JobState } from '../../job/state.js';
import type { Gate } from '../../trade/terms.js';
import type { Button, Job, Speaker } from '../answer.js';
import { blockerLine } from '../blocking.js';
import type { Line } from '../lines.js';
import { bold, counted } from '../lines.js';
import { holdsUp } from '../outside.js';
import { passButton } from '../passing.js';
import { gateName, gateWork } from '../terms.js';
import { itemName, stepName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem, rulesOf } from './ask.js';

type Group = { heading: string; kinds: readonly BlockerKind[] };

/** In the order in which they are worth reading: what others have, what the owner has to say, what is to be done here, what can be done at once. */
const GROUPS: readonly Group[] = [
  { heading: 'Out', kinds: ['out'] },
  { heading: 'On order', kinds: ['on-order'] },
  { heading: 'Waiting for the owner', kinds: ['owner-yes'] },
  {
    heading: 'To do here',
    kinds: [
      'unseen',
      'undecided',
      'owner-said-no',
      'check-again',
      'not-ordered',
      'still-here',
      'send-again',
      'work-undone',
      'fault',
      'check-undone',
      'no-road-test',
      'road-test-failed',
      'nothing-listed',
    ],
  },
  { heading: 'Can go on now', kinds: ['to-fit', 'item-to-fit'] },
];

/** What is in the way of a gate, grouped by who can move it, in build order within each group. */
export function blocking(ask: Ask, speaker: Speaker): Reply {
  const replies = ask.jobs.map((job) => blockingJob(ask, job, speaker));
  return {
    lines: replies.flatMap(({ lines }) => lines),
    more: replies.some(({ more }) => more === true),
    buttons: replies.flatMap(({ buttons }) => buttons ?? []),
  };
}

function blockingJob(ask: Ask, { id, state }: Job, speaker: Speaker): Reply {
  const gate = ask.question.gate ?? nextGate(state);
  if (gate === null)
    return { lines: [[bold(state.title), ': every gate is passed. It can be handed over.']] };
  if (state.gates[gate].passed)
    return { lines: [[bold(state.title), `: ${gateName(gate)} is passed; nothing is in the way.`]] };
  const all = blockersOf(state, gate, rulesOf(ask));
  const blockers = all.filter((blocker) => isAsked(ask, state, blocker));
  if (blockers.length === 0) return nothingInTheWay(ask, { id, state }, gate, all.length);
  const waiting = blockers.filter(({ kind }) => kind === 'step-waits').length;
  const holding = blockers.length - waiting;
  const groups = GROUPS.map(({ heading, kinds }) => ({
    heading,
    found: blockers.filter(({ kind }) => kinds.includes(kind)),
  })).filter(({ found }) => found.length > 0);
  const head = [bold(state.title), `: ${headline(gate, holding, waiting)}`];
  const short = groups.map(({ heading, found }) => shortGroup(heading, state, found, speaker));
  const full = groups.flatMap(({ heading, found }): Line[] => [
    [bold(heading)],
    ...found.map((blocker) => `• ${line(state, blocker, speaker)}`),
  ]);
  return {
    lines: [head, ...(ask.full ? full : short)],
    more: groups.some(({ found }) => found.length > 1),
    buttons: askOwner(id, state, blockers),
  };
}

/** Offers to put to the owner what waits for their yes and was never asked. */
function askOwner(job: string, state: JobState, blockers: readonly Blocker[]): Button[][] {
  const items = blockers.flatMap(({ kind, item }) => {
    const found = kind === 'owner-yes' && item !== null ? state.items[item] : undefined;
    return found && found.agreement.status !== 'asked' ? [found.number] : [];
  });
  return items.length === 0 ? [] : [[{ label: 'Ask the owner', action: { do: 'ask-owner', job, items } }]];
}

function headline(gate: Gate, holding: number, waiting: number): string {
  const steps = waiting === 0 ? '' : `; ${counted(waiting, 'step')} wait${waiting === 1 ? 's' : ''} behind`;
  return `${counted(holding, 'thing')} in the way of ${gateWork(gate)}${steps}.`;
}

/** The first of a group in full, and how many more. */
function shortGroup(heading: string, state: JobState, found: readonly Blocker[], speaker: Speaker): Line {
  const [first] = found;
  const more = found.length > 1 ? `; and ${found.length - 1} more` : '';
  return [bold(`${heading}: `), first ? `${line(state, first, speaker)}${more}.` : ''];
}

function line(state: JobState, blocker: Blocker, speaker: Speaker): string {
  if (blocker.kind === 'to-fit' || blocker.kind === 'item-to-fit') return toFit(state, blocker, speaker);
  const words = blockerLine(state, blocker, speaker);
  const item = blocker.item === null ? undefined : state.items[blocker.item];
  const isAway = blocker.kind === 'out' || blocker.kind === 'on-order';
  const held = item && isAway ? holdsUp(state, item, speaker) : '';
  return held === '' ? words : `${words}; ${held}`;
}

/** Its heading says already that it can go on. */
function toFit(state: JobState, { item: number, step: id }: Blocker, speaker: Speaker): string {
  const item = number === null ? undefined : state.items[number];
  const step = state.steps.find((each) => each.id === id);
  if (item) return itemName(item, speaker);
  return step ? stepName(step, speaker) : 'a step of the build order';
}

/** Where the question names a thing or a supplier, only what they hold is told. */
function isAsked(ask: Ask, state: JobState, blocker: Blocker): boolean {
  if (namesItem(ask)) return itemsAsked(state, ask).some(({ number }) => number === blocker.item);
  if (ask.suppliers.length === 0) return true;
  const { holder } = blocker;
  return holder.who === 'supplier' && holder.supplier !== null && ask.suppliers.includes(holder.supplier);
}

function nothingInTheWay(ask: Ask, { id, state }: Job, gate: Gate, others: number): Reply {
  const head = bold(state.title);
  if (others > 0) return { lines: [[head, `: that isn’t in the way of ${gateWork(gate)}.`]] };
  const offered = onOffer(state, rulesOf(ask)).includes(gate);
  const what =
    gate === 'stripped'
      ? 'that’s for you to say, once everything is off'
      : `nothing is in the way of ${gateWork(gate)}`;
  return { lines: [[head, `: ${what}.`]], buttons: offered ? [[passButton(id, gate)]] : [] };
}
