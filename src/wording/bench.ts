import type { Question, Reading } from '../hearing/reading.js';
import type { Attachment } from '../job/events.js';
import { nextGate } from '../job/gates.js';
import type { JobState } from '../job/state.js';
import type { JobEntry } from '../shop/state.js';
import type { Answer, Button, Speaker } from './answer.js';
import { plain } from './answer.js';
import { clipped, headed, joined, message, quoted } from './lines.js';
import { gateName } from './terms.js';

const JOBS_AT_MOST = 12;

/** A new job is in, and on the bench; `owner` is called as the shop calls them. */
export function jobOpened(
  state: JobState,
  owner: { name: string; phone?: string | undefined } | null,
  templateAssumed: boolean,
): Answer {
  const passed = Object.entries(state.gates).filter(([, { passed: done }]) => done);
  const next = nextGate(state);
  return message([
    [{ bold: state.title }, ` is in and on the bench.`],
    ...(owner === null
      ? ['No owner yet: say “owner”, then the name and the machine.']
      : [`Owner: ${[owner.name, owner.phone].filter(Boolean).join(', ')}.`]),
    ...(passed.length > 0 && next !== null
      ? [`Taken as done already; next to pass: ${gateName(next)}.`]
      : []),
    ...(templateAssumed
      ? [
          'I took the build order of a single with separate gearbox. “build order” shows it; every step can be changed.',
        ]
      : []),
    'Tell me what you take off and what you find.',
  ]);
}

export function titleTaken(title: string): Answer {
  return plain(
    `There is a ${title} in the shop already. Give this one another name, as in “new job: ${title} blue”.`,
  );
}

export function noSuchJob(said: string, jobs: readonly JobEntry[]): Answer {
  const open = openOf(jobs);
  if (open.length === 0) return noJobs();
  return message([`No machine called ${clipped(said, 60)} is in. Which one do you mean?`], putOnBench(open));
}

export function onBench(title: string): Answer {
  return message([[{ bold: title }, ' is on the bench. What you say now is about it.']]);
}

export function whichJobFirst(jobs: readonly JobEntry[]): Answer {
  const open = openOf(jobs);
  if (open.length === 0) return noJobs();
  return message(['Which machine is that for? Put it on the bench, then say it again.'], putOnBench(open));
}

/** A question that names no machine, where several are in. */
export function whichJob(open: readonly JobEntry[], question: Question): Answer {
  if (open.length === 0) return noJobs();
  return message(
    ['Of which machine?'],
    open
      .slice(0, JOBS_AT_MOST)
      .map(({ id, title }): Button[] => [
        { label: clipped(title, 40), action: { do: 'answer-more', job: id, question, item: null } },
      ]),
  );
}

type Saying = { message: string; messageId: number; text: string; attachments: readonly Attachment[] };

/** Something told of no machine that is known: kept, and asked which one. */
export function askWhichJob(jobs: readonly JobEntry[], reading: Reading, saying: Saying): Answer {
  const open = openOf(jobs);
  if (open.length === 0) return headed('Your words are kept.', noJobs());
  const titles = new Set(open.map(({ title }) => title.toLowerCase()));
  const items = reading.items.map(({ machine, ...item }) =>
    machine !== undefined && titles.has(machine.toLowerCase()) ? { ...item, machine } : item,
  );
  return message(
    ['Which machine is that about?'],
    open.slice(0, JOBS_AT_MOST).map(({ id, title }): Button[] => [
      {
        label: clipped(title, 40),
        action: {
          do: 'apply',
          job: id,
          message: saying.message,
          messageId: saying.messageId,
          reading: { ...reading, items, question: null },
          attachments: [...saying.attachments],
          instead: false,
        },
      },
    ]),
  );
}

function noJobs(): Answer {
  return plain(
    'No machine is in yet. Start with, for example, “new job: Ketterby 500 single, owner Mrs Dale”.',
  );
}

const openOf = (jobs: readonly JobEntry[]): JobEntry[] => jobs.filter(({ open }) => open);

function putOnBench(open: readonly JobEntry[]): Button[][] {
  return open
    .slice(0, JOBS_AT_MOST)
    .map(({ id, title }) => [{ label: clipped(title, 40), action: { do: 'put-on-bench', job: id } }]);
}

/** Words that say nothing of a job; they are kept all the same. */
export function nothingHeard(text: string): Answer {
  const kept =
    text.trim() === ''
      ? 'There was nothing to read in that.'
      : 'I found nothing about a machine in that. It is kept as you wrote it.';
  return plain(`${kept} Say “help” for what I understand.`);
}

export function explainChange(): Answer {
  return plain('Edit your message and I’ll take it as it then stands. Or undo, and say it again.');
}

export function notYours(): Answer {
  return plain(
    'That button isn’t for you, so nothing was done. Just write what you need and it reaches the workshop.',
  );
}

export function nothingToUndo(): Answer {
  return plain(
    'There is nothing to undo. To take something else back, reply “undo” to the message that said it.',
  );
}

/** Where a message was taken back, and which gates that left open. */
export function undone(states: readonly JobState[], _speaker: Speaker): Answer {
  const titles = joined(states.map(({ title }) => title));
  return message([['Undone', titles === '' ? '.' : ` on ${titles}.`, ' It is as if it was never said.']]);
}

export function wordLearnt(said: string, part: string): Answer {
  return plain(`Learnt: ${quoted(said, 60)} means ${clipped(part, 60)}.`, [
    [{ label: 'Forget that word', action: { do: 'unlearn', said } }],
  ]);
}

export function wordForgotten(said: string): Answer {
  return plain(`Forgotten: ${quoted(said, 60)} has no meaning of its own any more.`);
}

export function noSuchFault(): Answer {
  return plain(
    'Which fault? Say its number, as in “fault 2 fixed”. “What’s blocking the road test?” shows the open ones.',
  );
}

/** A voice note is being listened to. */
export function listening(): Answer {
  return plain('Listening …');
}

/** What a recogniser made of a voice note stands above its answer, so that a mishearing is seen. */
export function withHeard(heard: string, answer: Answer): Answer {
  return headed(`I heard: ${quoted(heard, 600)}`, answer);
}

export function heardNothing(answer: Answer): Answer {
  return headed(
    'I couldn’t make out any words; the voice note is kept. Your keyboard’s microphone may do better.',
    answer,
  );
}

/** A long voice note, heard to its `seconds` only. */
export function heardOnlyTo(seconds: number, answer: Answer): Answer {
  const minutes = Math.round(seconds / 60);
  return headed(
    `That was a long note: I listened to its first ${minutes} minutes only. Please send me what came after as another; all of it is kept.`,
    answer,
  );
}

/** A voice note where nothing is set up to listen to it. */
export function cannotListen(answer: Answer): Answer {
  return headed(
    'I can’t listen to voice notes here, so it is kept as it is. Your keyboard’s microphone turns talk into words that I can read.',
    answer,
  );
}

/** A picture of an album that came before any words: kept with the thing the words will name; it can be taken back. */
export function pictureKept(answer: Answer): Answer {
  const { thread } = answer;
  return {
    text: ['Pictures kept. Say what they show and they go with it.'],
    buttons: answer.buttons.map((row) => row.filter(({ action }) => action.do === 'undo')),
    ...(thread ? { thread } : {}),
  };
}

/** A message that could not be dealt with, whoever wrote it. */
export function keptForLater(): Answer {
  return plain(
    'Something went wrong at my end with that message. It is kept just as you sent it, and the workshop has been told.',
  );
}

/** What can be said, with an example of each; no more than fits a screen. */
export function helpText(): Answer {
  return message([
    'Just talk, several things in a message if you like. For example:',
    '• “front fork tubes pitted, new pair, about eighty quid”',
    '• “took the dynamo off, it’s in box 3”',
    '• “rims gone to the plater, back by the 20th” – then “rims are back”',
    '• “12 done”, “fitted the fork yokes”, “fault: weeping at the rocker feed”',
    [
      { bold: 'Ask: ' },
      'what’s blocking reassembly, where is 12, what’s overdue, what next, what has it cost, when will it be ready, photos of 12',
    ],
    [{ bold: 'See: ' }, '“machines”, “list”, “build order”, “checks”, “people”, “shop rules”'],
    [
      { bold: 'Start: ' },
      '“new job: Ketterby 500 single, owner Mrs Dale”, “supplier Harl & Dunn, chrome, 01632 960123”, “invite Mrs Dale”',
    ],
    [
      { bold: 'Put right: ' },
      'tap Undo, edit your message, or say “undo”. Photos and voice notes go with the thing you name.',
    ],
  ]);
}
