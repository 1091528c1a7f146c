import { nextGate } from '../../job/gates.js';
import type { Item, JobState, Line as OutLine } from '../../job/state.js';
import { isOut, promiseOf } from '../../job/state.js';
import { dateOfDay } from '../../plan/days.js';
import type { Gate } from '../../trade/terms.js';
import type { Speaker } from '../answer.js';
import { day, dayOf } from '../figures.js';
import { findingWords } from '../item-words.js';
import { capital, grouped, joined } from '../lines.js';
import { doing, done } from '../terms.js';
import { thingName } from '../things.js';
import { seenSince } from './milestones.js';

const NAMED_AT_MOST = 5;

/** A list of things as an owner reads it: names, no numbers. */
export function things(items: readonly Item[], speaker: Speaker): string {
  return joined([...new Set(items.map((item) => thingName(item, speaker)))], NAMED_AT_MOST);
}

const PASSED: Readonly<Record<Gate, string>> = {
  stripped: 'It has been stripped down.',
  inspected: 'Every part has been looked over, and we know what each one needs.',
  'parts-ordered': 'All the parts it needs have been ordered.',
  'sublet-out': 'Everything that needs outside work has gone off to have it done.',
  reassembled: 'It has been built up again.',
  'road-tested': 'It has been road-tested, and all is well.',
};

const REOPENED: Readonly<Record<Gate, string>> = {
  stripped: 'A little more has to come apart than we first thought.',
  inspected: 'Something more has come to light, so we are taking another look at it.',
  'parts-ordered': 'It turns out to need something more in the way of parts.',
  'sublet-out': 'Something more has to go out to a specialist.',
  reassembled: 'Something has to come off once more, to be put right.',
  'road-tested': 'Riding it showed something that we want to put right first.',
};

export const passedWords = (gate: Gate): string => PASSED[gate];

/** Why it goes back a step; outside work sent back has words of its own. */
export function reopenedWords(state: JobState, gate: Gate): string {
  const sentBack =
    gate === 'sublet-out' && Object.values(state.items).some(({ number }) => isSentBack(state, number));
  const why = sentBack ? 'One of the parts came back not as it should be, and goes again.' : REOPENED[gate];
  return `${why} That is nothing unusual, and we’ll let you know how it goes.`;
}

const isSentBack = (state: JobState, item: number): boolean =>
  Object.values(state.lines).findLast((line) => line.item === item && line.kind === 'sublet')?.status ===
  'refused';

const NEXT: Readonly<Record<Gate, string>> = {
  stripped: 'Next: it is taken apart.',
  inspected: 'Next: we look over every part and settle what it needs.',
  'parts-ordered': 'Next: the parts it needs are ordered.',
  'sublet-out': 'Next: what needs outside work goes out.',
  reassembled: 'Next: it is built up again as its parts come together.',
  'road-tested': 'Next: it is set up and road-tested.',
};

/** What comes next, in one sentence. */
export function nextWords(state: JobState): string {
  if (state.status === 'handed-over') return 'It is back with you.';
  const gate = nextGate(state);
  return gate === null ? 'Next: it is ready to be handed over to you.' : NEXT[gate];
}

/** What was done since an instant, ms: gates passed, things come in, built up; a sentence for each kind. */
export function doneSince(state: JobState, since: number, except: Gate | null, speaker: Speaker): string[] {
  const sinceDay = dateOfDay(Math.floor(since / 86_400_000));
  const lines = Object.values(state.lines);
  const itemsOf = (some: readonly OutLine[]): Item[] =>
    some.map(({ item }) => state.items[item]).filter((item) => item !== undefined);
  const came = lines.filter(
    ({ status, returnedOn }) => status === 'back' && returnedOn !== null && returnedOn >= sinceDay,
  );
  const back = itemsOf(came.filter(({ kind }) => kind === 'sublet'));
  const arrived = itemsOf(came.filter(({ kind }) => kind === 'order'));
  const built = state.steps.some(({ fittedAt }) => fittedAt !== null && fittedAt > since);
  const passed = (Object.keys(PASSED) as Gate[]).filter(
    (gate) => gate !== except && state.gates[gate].passed && (state.gates[gate].at ?? 0) > since,
  );
  return [
    ...passed.map(passedWords),
    ...(back.length > 0 ? [`Back with us: ${things(back, speaker)}.`] : []),
    ...(arrived.length > 0 ? [`New parts in: ${things(arrived, speaker)}.`] : []),
    ...(built && !passed.includes('reassembled') && except !== 'reassembled' ? builtWords(state, since) : []),
  ];
}

/** What can be seen of the building up since an instant, the last few things of it. */
function builtWords(state: JobState, since: number): string[] {
  const seen = seenSince(state, since);
  return [seen.length === 0 ? 'The building up goes on.' : `${capital(joined(seen.slice(-NAMED_AT_MOST)))}.`];
}

/** What is out or on order, with the day expected where that is still to come; nobody is named. */
export function inHand(state: JobState, speaker: Speaker): string[] {
  const lines = Object.values(state.lines).filter(isOut);
  const sublet = lines.filter(({ kind }) => kind === 'sublet');
  const ordered = lines.filter(({ kind }) => kind === 'order');
  return [
    ...(sublet.length > 0 ? [`Away being worked on: ${outWords(state, sublet, speaker)}.`] : []),
    ...(ordered.length > 0 ? [`On order: ${outWords(state, ordered, speaker)}.`] : []),
  ];
}

/** Things that are away for the same work till the same day are named together. */
function outWords(state: JobState, lines: readonly OutLine[], speaker: Speaker): string {
  const groups = grouped(lines, (line) => outNotes(line, speaker)).map((group) => {
    const items = group.map(({ item }) => state.items[item]).filter((item) => item !== undefined);
    const notes = group[0] ? outNotes(group[0], speaker) : '';
    return `${things(items, speaker)}${notes === '' ? '' : ` (${notes})`}`;
  });
  return groups.join('; ');
}

function outNotes(line: OutLine, speaker: Speaker): string {
  const due = promiseOf(line)?.due ?? null;
  return [
    ...(line.processes.length > 0 ? [doing(line.processes)] : []),
    ...(due !== null && due >= speaker.today ? [`expected ${day(due, speaker)}`] : []),
  ].join(', ');
}

/** Items that the owner has been asked about and has not answered. */
export function waitingItems(state: JobState): Item[] {
  return Object.values(state.items).filter(
    ({ agreement }) => agreement.status === 'asked' || agreement.status === 'talk',
  );
}

/** What was found last and what we propose, as an owner reads it: 'pitted; to be replaced'. */
export function proposal(item: Item): string {
  const conditions = item.findings.findLast((finding) => finding.conditions.length > 0)?.conditions ?? [];
  const found = findingWords({ conditions, readings: [], attachments: [] });
  const propose = item.remedy === null ? '' : proposed(item);
  return [found, propose].filter((part) => part !== '').join('; ');
}

function proposed({ remedy, processes, count }: Item): string {
  const it = count !== null && count > 1 ? 'them' : 'it';
  switch (remedy) {
    case 'keep':
      return `to be kept as ${it === 'it' ? 'it is' : 'they are'}`;
    case 'clean':
      return `to be cleaned`;
    case 'repair':
      return processes.length > 0 ? `to be ${done(processes)} by us` : 'to be repaired by us';
    case 'make':
      return 'to be made new by us';
    case 'replace':
      return 'to be replaced';
    case 'send-out':
      return processes.length > 0 ? `to be ${done(processes)} by a specialist` : 'to go to a specialist';
    case 'check':
    case null:
      return 'to be looked at once more';
  }
}

/** When it might be ready, told with care: never a day that nobody promised. */
export function readyWords(state: JobState, speaker: Speaker): string {
  if (state.status === 'handed-over') return 'It has been handed over.';
  if (nextGate(state) === null) return 'It is ready to be handed over.';
  const out = Object.values(state.lines).filter(isOut);
  const dues = out.map((line) => promiseOf(line)?.due ?? null);
  const known = dues
    .filter((due) => due !== null)
    .filter((due) => due >= speaker.today)
    .sort();
  const last = known.at(-1);
  const unsure = dues.some((due) => due === null || due < speaker.today);
  if (last === undefined)
    return unsure
      ? 'We can’t name a day yet: for some of what is away we have no date we can count on.'
      : 'We’d rather not name a day yet; we’ll tell you as soon as we can.';
  const also = unsure ? ' For some of what is away we have no date yet.' : '';
  return `Not before ${day(last, speaker)}: the last of what is promised so far comes then, and the building up and road test follow.${also}`;
}

/** How far the job is: gates passed with their days. */
export function passedSoFar(state: JobState, speaker: Speaker): string {
  const passed = (Object.keys(PASSED) as Gate[]).filter((gate) => state.gates[gate].passed);
  const last = passed.at(-1);
  if (last === undefined) return 'Work on it has begun.';
  const { at } = state.gates[last];
  return capital(at === null ? PASSED[last] : `${PASSED[last].replace(/\.$/, '')} (${dayOf(at, speaker)}).`);
}
