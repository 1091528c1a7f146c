import type { Question } from '../hearing/reading.js';
import { resolve } from '../job/resolve.js';
import type { RecordedJobEvent } from '../job/evolve.js';
import type { JobRules } from '../job/needs.js';
import type { Item, JobState, Notice } from '../job/state.js';
import type { Answer, Button, Job, Speaker } from './answer.js';
import { plain } from './answer.js';
import { total } from './figures.js';
import { agreementWords, costWords, sumsOf } from './item-words.js';
import type { Line } from './lines.js';
import { bold, capital, clipped, joined, listed, message } from './lines.js';
import {
  doneSince,
  inHand,
  nextWords,
  passedSoFar,
  passedWords,
  proposal,
  readyWords,
  reopenedWords,
  things,
  waitingItems,
} from './owner/standing.js';
import { whereForOwner } from './owner/where.js';
import { thingName } from './things.js';

const ITEMS_AT_MOST = 20;
const ASK_BY_ITEM_AT_MOST = 4;

/** What the owner is told: the news, what was done since they were last written to, what is in hand, what comes next. */
export function noticeText({ id, state }: Job, noticeId: string, _rules: JobRules, speaker: Speaker): Answer {
  const place = state.notices.findIndex((each) => each.id === noticeId);
  const notice = state.notices[place];
  const earlier = state.notices.slice(0, Math.max(0, place)).findLast(({ status }) => status !== 'dropped');
  const since = earlier?.draftedAt ?? state.openedAt;
  const lines: Line[] = [
    [bold(state.title)],
    ...(notice ? [newsOf(state, notice)] : []),
    ...(notice?.about === 'handed-over' ? [] : progressLines(state, since, notice?.gate ?? null, speaker)),
    ...(notice === undefined || hasNext(notice) ? [nextWords(state)] : []),
    'If you have a question, just write here.',
  ];
  return { ...message(lines), thread: { jobs: [id], message: '', item: null } };
}

function newsOf(state: JobState, { about, gate }: Notice): string {
  switch (about) {
    case 'passed':
      return gate === null ? 'Your machine has come a step further.' : passedWords(gate);
    case 'reopened':
      return gate === null ? 'We are taking another look at something.' : reopenedWords(state, gate);
    case 'silence':
      return 'A short word, so that you know how things stand.';
    case 'handed-over':
      return 'It has been handed over. Thank you for leaving it with us, and many good miles.';
  }
}

function progressLines(state: JobState, since: number, except: Notice['gate'], speaker: Speaker): Line[] {
  const waiting = waitingItems(state);
  return [
    ...doneSince(state, since, except, speaker),
    ...inHand(state, speaker),
    ...(waiting.length > 0 ? [`Waiting for your word: ${things(waiting, speaker)}.`] : []),
  ];
}

/** After a gate opened again the news itself says what comes next. */
const hasNext = ({ about }: Notice): boolean => about !== 'handed-over' && about !== 'reopened';

/** Asks the owner about all that waits for their yes: what was found, what we propose, what it costs. */
export function yesAskedText({ id, state }: Job, speaker: Speaker): Answer {
  const asked = Object.values(state.items).filter(({ agreement }) => agreement.status === 'asked');
  return {
    ...message(
      [[bold(state.title)], 'May we go ahead with this?', ...askedLines(asked, speaker)],
      answerButtons(id, asked, speaker),
    ),
    thread: { jobs: [id], message: '', item: null },
  };
}

function askedLines(items: readonly Item[], speaker: Speaker): Line[] {
  return [
    ...listed(
      items.map((item) => askedLine(item, speaker)),
      ITEMS_AT_MOST,
    ),
    ...totalLine(items, speaker),
  ];
}

function askedLine(item: Item, speaker: Speaker): string {
  const what = proposal(item);
  const cost = costWords(item);
  return `• ${capital(thingName(item, speaker))}${what === '' ? '' : `: ${what}`}${cost === '' ? '; no price yet' : `, ${cost}`}`;
}

function totalLine(items: readonly Item[], speaker: Speaker): string[] {
  const priced = sumsOf(items);
  if (priced.length < 2) return [];
  const about = items.some(({ cost }) => cost?.about === true) ? 'about ' : '';
  const vat = items.some(({ cost }) => cost?.vat === 'plus') ? ', VAT to be added where it says so' : '';
  const unpriced = priced.length < items.length ? ', besides what has no price yet' : '';
  return [`In all: ${about}${total(priced, speaker.currency)}${vat}${unpriced}.`];
}

function answerButtons(job: string, items: readonly Item[], speaker: Speaker): Button[][] {
  const button = (label: string, some: readonly Item[], outcome: 'yes' | 'no' | 'talk'): Button => ({
    label,
    action: { do: 'owner-answer', job, items: some.map(({ number }) => number), outcome },
  });
  if (items.length === 0) return [];
  const all = items.length > 1;
  const together = [
    button(all ? 'Yes to all' : 'Yes', items, 'yes'),
    button(all ? 'No to all' : 'No', items, 'no'),
    button('Let’s talk', items, 'talk'),
  ];
  const apart = items.length > 1 && items.length <= ASK_BY_ITEM_AT_MOST ? items : [];
  return [
    together,
    ...apart.map((item) => [
      button(clipped(`Yes: ${thingName(item, speaker)}`, 32), [item], 'yes'),
      button(clipped(`No: ${thingName(item, speaker)}`, 32), [item], 'no'),
    ]),
  ];
}

type Given = { items: readonly number[]; outcome: 'yes' | 'no' | 'talk' };

/** Says back what the owner answered, and asks once more about what is still open. */
export function ownerAnswered(
  { id, state, events }: Job & { events: readonly RecordedJobEvent[] },
  given: readonly Given[],
  speaker: Speaker,
): Answer {
  const recorded = events.flatMap((event) => (event.type === 'owner-answered' ? [event.data] : []));
  const answers = (recorded.length > 0 ? recorded : given).filter(({ items }) => items.length > 0);
  if (answers.length === 0) return ownerThanks();
  const left = Object.values(state.items).filter(({ agreement }) => agreement.status === 'asked');
  const words = answers.map(({ items, outcome }) => {
    const names = things(
      items.map((number) => state.items[number]).filter((item) => item !== undefined),
      speaker,
    );
    return `${SAID[outcome]} ${names}`;
  });
  const still = left.length > 0 ? [`Still open: ${things(left, speaker)}.`] : [];
  return {
    ...message(
      [`Thank you. Noted: ${words.join('; ')}.`, ...still],
      left.length > 0 ? answerButtons(id, left, speaker) : [],
    ),
    thread: { jobs: [id], message: '', item: null },
  };
}

const SAID = { yes: 'yes to', no: 'no to', talk: 'to talk about' } as const;

/** An owner's question, answered from their own job alone; the workshop is told of it too. */
export function ownerProgress(
  { id, state }: Job,
  question: Question,
  _rules: JobRules,
  speaker: Speaker,
): Answer {
  const lines = answerLines(state, question, speaker);
  return {
    ...message([[bold(state.title)], ...lines, 'The workshop has your question too.']),
    thread: { jobs: [id], message: '', item: null },
  };
}

function answerLines(state: JobState, { about, part }: Question, speaker: Speaker): Line[] {
  switch (about) {
    case 'cost':
    case 'agreed':
      return agreedLines(state, speaker);
    case 'where':
    case 'findings':
    case 'history': {
      const found =
        part === null ? null : resolve(state, { item: null, part, called: null, place: [], count: null });
      const items = found?.kind === 'found' ? [found.item] : found?.kind === 'several' ? found.items : [];
      return items.length > 0
        ? items.map((item) => whereForOwner(state, item, speaker))
        : standingLines(state, speaker);
    }
    case 'ready':
    case 'blocking':
    case 'overdue':
    case 'next':
    case 'holding':
    case 'photos':
      return standingLines(state, speaker);
  }
}

function standingLines(state: JobState, speaker: Speaker): Line[] {
  const waiting = waitingItems(state);
  return [
    passedSoFar(state, speaker),
    ...inHand(state, speaker),
    ...(waiting.length > 0 ? [`Waiting for your word: ${things(waiting, speaker)}.`] : []),
    readyWords(state, speaker),
  ];
}

/** What the owner was asked about and what they answered, and what it comes to; no other costs. */
function agreedLines(state: JobState, speaker: Speaker): Line[] {
  const settled = Object.values(state.items).filter(({ agreement }) => agreement.status !== 'not-asked');
  if (settled.length === 0) return ['You haven’t been asked to agree to anything yet.'];
  const sums = settled.flatMap(({ agreement, cost }) =>
    agreement.status === 'yes' && agreement.upTo !== null
      ? [{ amount: agreement.upTo, currency: cost?.currency ?? speaker.currency }]
      : [],
  );
  const rows = settled.map(
    (item) => `• ${capital(thingName(item, speaker))}: ${agreementWords(item, speaker)}`,
  );
  return [
    ...listed(rows, ITEMS_AT_MOST),
    ...(sums.length > 1 ? [`Agreed in all: ${total(sums, speaker.currency)}.`] : []),
  ];
}

export function ownerThanks(): Answer {
  return plain('Thank you. The workshop has your message.');
}

/** A button under a question of which nothing stands any more. */
export function questionWithdrawn(): Answer {
  return plain(
    'Thank you. That has changed since we asked, so nothing was noted from it. The workshop knows of your answer, and asks again where need be.',
  );
}

/** An owner with several machines in, who named none. */
export function whichOfYours(jobs: readonly Job[]): Answer {
  const titles = jobs.map(({ state }) => state.title);
  return plain(
    `Which machine do you mean, ${joined(titles).replace(/ and ([^,]*)$/, ' or $1')}? Please send it again with its name.`,
  );
}
