import type { Matter } from '../contact/events.js';
import type { JobRules } from '../job/needs.js';
import type { Answer, Button, Job, Speaker } from './answer.js';
import { textOf } from './answer.js';
import { day } from './figures.js';
import { bold, clipped, joined, message, quoted } from './lines.js';
import { noticeText } from './owner.js';
import { itemCalled, itemName } from './things.js';

const WORDS_AT_MOST = 2_500;

/** To a mechanic: what an owner or supplier wrote or tapped, and what it was taken to be about. */
export function toldText(
  about: readonly Matter[],
  jobs: ReadonlyMap<string, Job>,
  words: string,
  speaker: Speaker,
): Answer {
  const [first] = about;
  const who = first?.person == null ? 'Somebody' : speaker.name(first.person);
  const subject = subjectOf(about, jobs, speaker);
  const said = words.trim() === '' ? tapped(first?.step ?? '') : quoted(words, WORDS_AT_MOST);
  const lines = [
    [bold(who), subject === '' ? ':' : `, about ${subject}:`],
    said,
    ...notedAnswer(first, jobs, speaker),
    ...datesTaken(about, jobs, speaker),
  ];
  const answer = message(lines);
  const ids = [...new Set(about.flatMap(({ job }) => (job === null ? [] : [job])))];
  if (ids.length === 0) return answer;
  return { ...answer, thread: { jobs: ids, message: '', item: onlyItem(about, jobs) } };
}

/** Which new dates a supplier's words were taken to give. */
function datesTaken(about: readonly Matter[], jobs: ReadonlyMap<string, Job>, speaker: Speaker): string[] {
  const dated = about.filter(({ line, step }) => line !== null && step !== null);
  const dates = [...new Set(dated.map(({ step }) => step ?? ''))];
  const [only, ...more] = dates;
  if (only === undefined) return [];
  if (more.length === 0) return [`Taken as a new date: ${day(only, speaker)}.`];
  const each = dates.map((date) => {
    const things = subjectOf(
      dated.filter(({ step }) => step === date),
      jobs,
      speaker,
    );
    return `${day(date, speaker)} for ${things}`;
  });
  return [`Taken as new dates: ${each.join('; ')}.`];
}

/** What an owner's answer was taken to say. */
function notedAnswer(matter: Matter | undefined, jobs: ReadonlyMap<string, Job>, speaker: Speaker): string[] {
  const state = matter?.job == null ? undefined : jobs.get(matter.job)?.state;
  const isAnswer = matter?.step === 'answered' || matter?.step?.startsWith('tapped-') === true;
  if (!state || !isAnswer) return [];
  const given = Object.values(state.items).flatMap((item) => {
    const { agreement } = item;
    return agreement.status === 'not-asked' || agreement.status === 'asked' ? [] : [{ item, ...agreement }];
  });
  const latest = Math.max(0, ...given.map(({ at }) => at));
  const words = (['yes', 'no', 'talk'] as const).flatMap((outcome) => {
    const items = given.filter(({ status, at }) => status === outcome && at === latest);
    const names = joined(
      items.map(({ item }) => itemName(item, speaker)),
      8,
    );
    return items.length === 0 ? [] : [`${OUTCOMES[outcome]} ${names}`];
  });
  return words.length === 0 ? [] : [`Noted: ${words.join('; ')}.`];
}

const OUTCOMES = { yes: 'yes to', no: 'no to', talk: 'to talk about' } as const;

/** The step of a tap under a question that no longer stands. */
export const TAPPED_TOO_LATE = 'late-tap';

function tapped(step: string): string {
  switch (step) {
    case TAPPED_TOO_LATE:
      return 'Tapped an answer to what has changed since they were asked. Nothing was noted from it.';
    case 'tapped-yes':
      return 'Yes, by button.';
    case 'tapped-no':
      return 'No, by button. Say what to do instead.';
    case 'tapped-talk':
      return 'Would like to talk about it, by button.';
    default:
      return 'A picture or voice note, without words.';
  }
}

function subjectOf(about: readonly Matter[], jobs: ReadonlyMap<string, Job>, speaker: Speaker): string {
  const ids = [...new Set(about.flatMap(({ job }) => (job === null ? [] : [job])))];
  const parts = ids.flatMap((id) => {
    const state = jobs.get(id)?.state;
    if (!state) return [];
    const things = about.flatMap(({ job, line }) => {
      const item = job === id && line !== null ? state.lines[line]?.item : undefined;
      return item === undefined ? [] : [itemCalled(state, item, speaker)];
    });
    return [things.length === 0 ? state.title : `${joined(things, 6)} of ${state.title}`];
  });
  return joined(parts, 6);
}

function onlyItem(about: readonly Matter[], jobs: ReadonlyMap<string, Job>): number | null {
  const [only, ...more] = about;
  if (!only || more.length > 0 || only.job === null || only.line === null) return null;
  return jobs.get(only.job)?.state.lines[only.line]?.item ?? null;
}

/** To a mechanic: a notice to an owner as it would go, to be let go or not. */
export function releaseText(job: Job, notice: string, rules: JobRules, speaker: Speaker): Answer {
  const { id, state } = job;
  const owner = state.owner === null ? 'the owner' : speaker.name(state.owner);
  const words = textOf(noticeText(job, notice, rules, speaker));
  return {
    ...message(
      [[bold(`For ${owner}, if you say so:`)], clipped(words, 3_500)],
      [
        [
          { label: 'Send it', action: { do: 'release-notice', job: id, notice } },
          { label: 'Don’t send', action: { do: 'drop-notice', job: id, notice } },
        ],
      ],
    ),
    thread: { jobs: [id], message: '', item: null },
  };
}

/** To a mechanic: who opened an invitation, to be confirmed. `words` is the name that the chat gives them. */
export function guestText(invitation: string, person: string, words: string, speaker: Speaker): Answer {
  const buttons: Button[][] = [
    [
      { label: 'Yes, that’s them', action: { do: 'settle-guest', invitation, welcome: true } },
      { label: 'No', action: { do: 'settle-guest', invitation, welcome: false } },
    ],
  ];
  const name = words.trim() === '' ? 'without a name' : quoted(words, 80);
  return message(
    [
      `The invitation for ${speaker.name(person)} was opened by someone whose chat says ${name}. Is that them?`,
    ],
    buttons,
  );
}

/** To somebody just let in, in the part they have: what they may ask here, and what will come. */
export function welcomeText(role: string, jobs: readonly Job[], shopName: string, _speaker: Speaker): Answer {
  const machines = joined(jobs.map(({ state }) => state.title));
  switch (role) {
    case 'owner':
      return message([
        `Welcome. Here ${shopName} writes to you${machines === '' ? '' : ` about ${machines}`}.`,
        'You’ll hear from us when something worth telling has happened, and may be asked before money is spent. Ask any time, as in “when will it be ready?”.',
        'Nobody but you and the workshop sees what is written here.',
      ]);
    case 'supplier':
      return message([
        `Welcome. Here ${shopName} writes to you about what you have of ours.`,
        'At most one short note a day, in your hours. A date or a word in reply is all we need; “what have I got of yours?” shows the list.',
      ]);
    default:
      return message([
        `Welcome to ${shopName}. Tell me what you see and do at the bench; say “help” for examples.`,
      ]);
  }
}

/** To a mechanic: something did not work, and what to do about it. */
export function troubleText(person: string | null, words: string, speaker: Speaker): Answer {
  if (person === null)
    return message([
      'One message could not be dealt with, though it was tried three times. It is kept as it came. If it was yours, please say it again in other words; whoever looks after me can look into it.',
    ]);
  const phone = speaker.phone(person);
  const ring = phone === null ? 'Please reach them another way.' : `Their number is ${phone}.`;
  const why = words.trim() === '' ? '' : ` ${quoted(words, 300)}`;
  return message([`A message to ${speaker.name(person)} did not reach them.${why} ${ring}`]);
}
