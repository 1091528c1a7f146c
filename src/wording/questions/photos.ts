import type { Attachment } from '../../job/events.js';
import type { JobState } from '../../job/state.js';
import type { Job, Speaker } from '../answer.js';
import { dayOf } from '../figures.js';
import type { Line } from '../lines.js';
import { clipped, counted, joined } from '../lines.js';
import { itemCalled } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem, notListed } from './ask.js';

type Kept = { attachment: Attachment; at: number; item: number | null; text: string | null };

/** Pictures sent at once; an album holds ten (Bot API documentation), so this is two at most. */
const PHOTOS_AT_MOST = 20;

/** The pictures and voice notes of a thing, or of the job, latest last, by the hash of what was fetched. */
export function photos(ask: Ask, speaker: Speaker): Reply {
  const found = ask.jobs.map((job) => ({ job, kept: keptOf(job, ask) }));
  if (namesItem(ask) && !ask.jobs.some(({ state }) => itemsAsked(state, ask).length > 0))
    return notListed(ask);
  const all = found.flatMap(({ job, kept }) => kept.map((each) => ({ job, each })));
  const shown = all.flatMap(({ job, each }) => pictureOf(job, each, speaker));
  const voices = all.flatMap(({ job, each }) => hashOf(job.state, each.attachment, 'voice'));
  const latest = shown.slice(-PHOTOS_AT_MOST);
  return { lines: summary(all, shown.length, latest.length, voices.length), photos: latest, voices };
}

function keptOf({ state }: Job, ask: Ask): Kept[] {
  const numbers = namesItem(ask) ? itemsAsked(state, ask).map(({ number }) => number) : null;
  const wanted = (item: number | null): boolean =>
    numbers === null || (item !== null && numbers.includes(item));
  const findings = Object.values(state.items).flatMap(({ number, findings: each }) =>
    each.flatMap(({ at, attachments, text }) =>
      attachments.map((attachment) => ({ attachment, at, item: number, text })),
    ),
  );
  const notes = state.notes.flatMap(({ at, attachments, item, text }) =>
    attachments.map((attachment) => ({ attachment, at, item, text })),
  );
  const arrival = state.arrival.flatMap(({ attachments, text }) =>
    attachments.map((attachment) => ({ attachment, at: state.openedAt, item: null, text })),
  );
  return [...arrival, ...findings, ...notes].filter(({ item }) => wanted(item)).sort((a, b) => a.at - b.at);
}

function hashOf(state: JobState, { unique, kind }: Attachment, wanted: Attachment['kind']): string[] {
  const fetched = state.fetched[unique];
  return kind === wanted && fetched && 'hash' in fetched ? [fetched.hash] : [];
}

function pictureOf(
  { state }: Job,
  { attachment, at, item, text }: Kept,
  speaker: Speaker,
): { hash: string; caption: string }[] {
  const what = item === null ? state.title : itemCalled(state, item, speaker);
  const said = text === null ? '' : speaker.said(text);
  const caption = `${what}, ${dayOf(at, speaker)}${said === '' ? '' : `: ${clipped(said, 300)}`}`;
  return hashOf(state, attachment, 'photo').map((hash) => ({ hash, caption }));
}

function hadNoRoom({ state }: Job, { attachment }: Kept): boolean {
  const fetched = state.fetched[attachment.unique];
  return fetched !== undefined && 'lost' in fetched && fetched.lost === 'no-room';
}

/** Says how many there are, and what of them could not be had, so that a missing picture is no riddle. */
function summary(
  all: readonly { job: Job; each: Kept }[],
  have: number,
  shown: number,
  voices: number,
): Line[] {
  const media = all.filter(({ each }) => each.attachment.kind !== 'document');
  if (media.length === 0) return ['No pictures of that yet. Send one and say what it shows.'];
  const waiting = media.filter(
    ({ job, each }) => job.state.fetched[each.attachment.unique] === undefined,
  ).length;
  const noRoom = media.filter(({ job, each }) => hadNoRoom(job, each)).length;
  const lost = media.length - waiting - have - voices - noRoom;
  const parts = [
    ...(have > 0 ? [counted(have, 'picture')] : []),
    ...(voices > 0 ? [counted(voices, 'voice note')] : []),
  ];
  return [
    ...(parts.length > 0
      ? [`${joined(parts)}${shown < have ? `, the latest ${shown} of them here` : ''}.`]
      : []),
    ...(waiting > 0 ? [`${counted(waiting, 'file')} still on the way; ask again in a minute.`] : []),
    ...(noRoom > 0
      ? [
          `${counted(noRoom, 'file')} could not be kept: there was no room on the disk. Please send ${noRoom === 1 ? 'it' : 'them'} again when there is.`,
        ]
      : []),
    ...(lost > 0
      ? [
          `${counted(lost, 'file')} could not be had: too big, or no longer with the chat service. Please send ${lost === 1 ? 'it' : 'them'} again, smaller.`,
        ]
      : []),
  ];
}
