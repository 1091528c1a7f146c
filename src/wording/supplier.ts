import type { Matter } from '../contact/events.js';
import type { JobState, Line as OutLine } from '../job/state.js';
import { promiseOf } from '../job/state.js';
import type { Answer, Button, Job, Speaker } from './answer.js';
import { day, shortDay } from './figures.js';
import type { Line } from './lines.js';
import { capital, clipped, counted, grouped, joined, listed, message, sentence } from './lines.js';
import { partBack } from './outside.js';
import { doing } from './terms.js';
import { thingName } from './things.js';

type TheirLine = { standing: Job; line: OutLine };

const LINES_AT_MOST = 30;

/** The day's one message to a supplier: what is nearly due and what is past its day, over all jobs, and taps to answer. */
export function supplierDayText(
  about: readonly Matter[],
  jobs: ReadonlyMap<string, Job>,
  shopName: string,
  speaker: Speaker,
): Answer {
  const asked = about.flatMap((matter) => {
    const standing = matter.job === null ? undefined : jobs.get(matter.job);
    const line = matter.line === null ? undefined : standing?.state.lines[matter.line];
    return standing && line ? [{ standing, line, step: matter.step }] : [];
  });
  const late = asked.filter(({ line }) => isPast(line, speaker));
  const coming = asked.filter(({ line }) => !isPast(line, speaker));
  const again = late.length > 0 && late.every(({ step }) => step === 'chase-again');
  const lines: Line[] = [
    `Hello from ${shopName}.`,
    ...section(coming.length > 0 ? 'A friendly word about what is due with us soon:' : null, coming, speaker),
    ...section(
      late.length > 0
        ? again
          ? 'We wrote a few days ago about these, promised and not yet here:'
          : 'These were promised and haven’t reached us yet:'
        : null,
      late,
      speaker,
    ),
    late.length > 0
      ? 'Could you let us know when we may expect them? A new date is all we need.'
      : 'Is that still good? If not, a new date is all we need.',
    'Tap a button or just write. Thank you.',
  ];
  return message(lines, supplierButtons(asked, coming));
}

function section(heading: string | null, lines: readonly TheirLine[], speaker: Speaker): Line[] {
  return heading === null ? [] : [heading, ...listed(theirRows(lines, speaker), LINES_AT_MOST)];
}

/** 'On its day' is only offered for what is not past it. */
function supplierButtons(asked: readonly TheirLine[], coming: readonly TheirLine[]): Button[][] {
  const says = (label: string, lines: readonly TheirLine[], word: 'on-time' | 'ready' | 'late'): Button[] =>
    lines.length === 0
      ? []
      : [
          {
            label,
            action: {
              do: 'supplier-says',
              lines: lines.map(({ standing, line }) => ({ job: standing.id, line: line.id })),
              says: word,
            },
          },
        ];
  return [
    [
      ...says('On its day', coming, 'on-time'),
      ...says('Ready', asked, 'ready'),
      ...says('Running late', asked, 'late'),
    ],
  ];
}

function isPast(line: OutLine, { today }: Speaker): boolean {
  const promise = promiseOf(line);
  return promise !== null && promise.due < today;
}

/** Their lines in a list, things of one machine that went together in one row: 'Fork stanchions, Ketterby: hard chroming, …'. */
function theirRows(lines: readonly TheirLine[], speaker: Speaker): Line[] {
  const about = ({ standing: { state }, line }: TheirLine): string =>
    `${machineName(state, speaker)}: ${detailsOf(line, speaker)}`;
  return grouped(lines, about).flatMap((group) => {
    const [first] = group;
    return first
      ? [`• ${capital(joined(group.map((each) => theirThing(each, speaker))))}, ${about(first)}`]
      : [];
  });
}

function theirThing({ standing: { state }, line }: TheirLine, speaker: Speaker): string {
  const item = state.items[line.item];
  if (!item) return 'a part';
  return withoutOwner(thingName({ ...item, count: line.count ?? item.count }, speaker), state, speaker);
}

function detailsOf(line: OutLine, speaker: Speaker): string {
  const promise = promiseOf(line);
  return [
    ...(line.processes.length > 0 ? [doing(line.processes)] : []),
    `${line.kind === 'order' ? 'ordered' : 'with you since'} ${shortDay(line.openedOn, speaker)}`,
    partBack(line),
    promise === null
      ? 'no date yet'
      : `promised for ${promise.due === speaker.today ? 'today' : day(promise.due, speaker)}`,
  ]
    .filter((part) => part !== '')
    .join(', ');
}

/** The machine as a supplier may know it: its title, without whose it is ('Mrs Dale’s Ketterby' is 'Ketterby'). */
function machineName(state: JobState, speaker: Speaker): string {
  const title = state.title.replace(/^.*[’']s\s+(?=\S)/, '');
  return namesOwner(title, state, speaker) ? 'the motorcycle we spoke of' : title;
}

function withoutOwner(words: string, state: JobState, speaker: Speaker): string {
  return namesOwner(words, state, speaker) ? 'the part we spoke of' : words;
}

const TITLES = ['mr', 'mrs', 'ms', 'miss', 'dr', 'the', 'and'];

function namesOwner(words: string, { owner }: JobState, speaker: Speaker): boolean {
  if (owner === null) return false;
  const said = wordsIn(words);
  return wordsIn(speaker.name(owner)).some(
    (word) => word.length > 2 && !TITLES.includes(word) && said.includes(word),
  );
}

function wordsIn(text: string): string[] {
  return text
    .toLowerCase()
    .replace(/[’']s\b/g, '')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
}

type Heard = { lines: readonly (TheirLine & { due: string | null })[]; out: number; shop: string };

/** Thanks a supplier for what they wrote, with what it was taken to be about and the new date, if it gave one. */
export function supplierThanks({ lines, out, shop }: Heard, speaker: Speaker): Answer {
  if (out === 0 || lines.length === 0) return message([`Thank you. ${sentence(`${shop} has your message`)}`]);
  const dated = grouped(
    lines.filter(({ due }) => due !== null),
    ({ due }) => due ?? '',
  );
  if (dated.length > 0) {
    const open = lines.filter(({ due }) => due === null);
    return message([
      ...dated.flatMap((group, at) => {
        const noted = `${at === 0 ? 'Thank you. Noted' : 'Noted'} for ${day(group[0]?.due ?? '', speaker)}:`;
        return [noted, ...machineRows(group, speaker)];
      }),
      ...(open.length > 0 ? ['Passed on, without a date:', ...machineRows(open, speaker)] : []),
    ]);
  }
  return message([
    'Thank you, passed on. It was taken to be about:',
    ...listed(machineRows(lines, speaker), 6),
    'If there is a new date, just write it here.',
  ]);
}

function machineRows(lines: readonly TheirLine[], speaker: Speaker): Line[] {
  return grouped(lines, ({ standing }) => standing.id).flatMap((group) => {
    const [first] = group;
    const things = joined(group.map((each) => theirThing(each, speaker)));
    return first ? [`• ${capital(things)}, ${machineName(first.standing.state, speaker)}`] : [];
  });
}

/** What a supplier has of the shop's, for one who asks. */
export function supplierHolds(theirs: readonly TheirLine[], shopName: string, speaker: Speaker): Answer {
  if (theirs.length === 0)
    return message([
      `By our list you have nothing of ${clipped(shopName, 80)}’s at the moment. If you do, please tell us.`,
    ]);
  const byDate = [...theirs].sort((a, b) =>
    (promiseOf(a.line)?.due ?? '9').localeCompare(promiseOf(b.line)?.due ?? '9'),
  );
  return message([
    `By our list you have ${counted(theirs.length, 'thing')} of ours:`,
    ...listed(theirRows(byDate, speaker), LINES_AT_MOST),
    'A new date, or a word that something is ready, can go right here.',
  ]);
}
