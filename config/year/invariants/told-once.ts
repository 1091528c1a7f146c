import type { Seen } from '../../../bot/rehearsal/seen.js';
import type { MessageOut } from '../../../src/contact/state.js';
import type { Happened, Written } from '../journal.js';

/** Somebody's chat, and what the record has of the messages to them. */
export type Told = { who: string; chat: number; kept: readonly MessageOut[] };

/** A text this long may be a piece of a longer one, of which the record knows the last (Bot API: 4096 characters, cut at a line). */
const PIECE_FROM = 2048;

/**
 * What was written into a chat that is neither an answer nor what the record has as sent: by the messages' own numbers, whatever
 * they say and when. Each thing that somebody does is answered once, before anything else happens; where the bot or Redis died
 * meanwhile, or it was told of it again, perhaps once more.
 */
export function strays(happened: readonly Happened[], { chat, kept }: Told): Written[] {
  const sent = new Set(kept.map(({ chatMessage }) => chatMessage));
  const found: Written[] = [];
  let answers = 0;
  let isTheirs = false;
  let again = 0;
  for (const [index, entry] of happened.entries()) {
    switch (entry.kind) {
      case 'act':
        answers = entry.chat === chat ? (isTheirs ? answers : 0) + (entry.isVoice ? 2 : 1) : 0;
        isTheirs = entry.chat === chat;
        break;
      case 'woken':
        answers = 0;
        isTheirs = false;
        // The shop had come to rest before: what was told again is answered, or has no answer.
        again = 0;
        break;
      case 'killed':
        if (isTheirs && answersAgain(entry.what)) answers += 1;
        break;
      case 'told-again':
        if (isOf(happened, entry.update, chat)) again += 1;
        break;
      case 'written':
        if (entry.chat !== chat || sent.has(entry.message) || isPiece(happened, index)) break;
        if (answers > 0) answers -= 1;
        else if (again > 0) again -= 1;
        else found.push(entry);
        break;
      case 'unanswered':
    }
  }
  return found;
}

const answersAgain = (what: string): boolean => what !== 'relay' && what !== 'wake' && what !== 'fetch';

const isOf = (happened: readonly Happened[], update: number, chat: number): boolean =>
  happened.some((entry) => entry.kind === 'act' && entry.update === update && entry.chat === chat);

function isPiece(happened: readonly Happened[], index: number): boolean {
  const piece = happened[index];
  if (piece?.kind !== 'written' || piece.text.length < PIECE_FROM) return false;
  const next = happened.slice(index + 1).find((each) => each.kind === 'written' && each.chat === piece.chat);
  return next !== undefined && next.at === piece.at;
}

/** Each stray with the message of which it is a copy: one marked as perhaps repeated, between its being intended and sent. */
function copies(happened: readonly Happened[], told: Told): { stray: Written; of: MessageOut | null }[] {
  const marked = told.kept.filter(({ perhapsRepeated }) => perhapsRepeated);
  return strays(happened, told).map((stray) => {
    const its = marked.findIndex(
      ({ intendedAt, sentAt }) => intendedAt <= stray.at && stray.at <= (sentAt ?? -Infinity),
    );
    return { stray, of: its < 0 ? null : (marked.splice(its, 1)[0] ?? null) };
  });
}

/** Nothing that was sent came twice but where the record says so of that very message. */
export function toldTwice(happened: readonly Happened[], told: Told): string[] {
  return copies(happened, told)
    .filter(({ of }) => of === null)
    .map(({ stray }) => `${told.who} was told twice, without a mark: “${stray.text.slice(0, 60)}”`);
}

/** A chat as it was seen, without the copies that the record knows of. */
export function withoutRepeats<Chat extends { chatId: number; messages: readonly Seen[] }>(
  happened: readonly Happened[],
  told: readonly Told[],
  chat: Chat,
): Chat {
  const its = told.find((each) => each.chat === chat.chatId);
  const known = its ? copies(happened, its).filter(({ of }) => of !== null) : [];
  const numbers = new Set(known.map(({ stray }) => stray.message));
  return { ...chat, messages: chat.messages.filter(({ messageId }) => !numbers.has(messageId)) };
}

/** What the record has as sent stands in the chat, each under a number of its own, and no step of a matter is in two of them. */
export function notAsRecorded(happened: readonly Happened[], { who, chat, kept }: Told): string[] {
  const seen = new Set(
    happened.flatMap((entry) => (entry.kind === 'written' && entry.chat === chat ? [entry.message] : [])),
  );
  const sent = kept.filter(({ status }) => status === 'sent');
  const numbers = sent.map(({ chatMessage }) => chatMessage);
  const dues = sent.flatMap(({ about }) => about.flatMap(({ due }) => due ?? []));
  return [
    ...sent
      .filter(({ chatMessage }) => chatMessage === null || !seen.has(chatMessage))
      .map(({ id }) => `${who} never saw ${id}, which stands as sent`),
    ...twiceIn(numbers).map((number) => `two messages to ${who} stand as one in the chat: ${number}`),
    ...twiceIn(dues).map((due) => `${who} was told of ${due} in two messages`),
  ];
}

const twiceIn = <T>(list: readonly T[]): T[] => list.filter((each, index) => list.indexOf(each) !== index);

/** Who sends what was intended, or keeps it: the death of another leaves no message open. */
const LEAVES_OPEN: readonly string[] = ['workers', 'send', 'redis'];

/**
 * A message is marked as perhaps repeated only where whoever sends died, or had no answer, after it was intended and before it was
 * seen as sent; each such cause bears one mark.
 */
export function markedWithoutCause(happened: readonly Happened[], told: readonly Told[]): string[] {
  const spent = new Set<number>();
  const marked = told
    .flatMap(({ who, chat, kept }) => kept.map((out) => ({ who, chat, out })))
    .filter(({ out }) => out.perhapsRepeated)
    .sort((a, b) => (a.out.sentAt ?? 0) - (b.out.sentAt ?? 0));
  return marked.flatMap(({ who, chat, out }) => {
    const seenAt = happened.findIndex(
      (entry) => entry.kind === 'written' && entry.chat === chat && entry.message === out.chatMessage,
    );
    const cause = happened.findIndex(
      (entry, index) =>
        index < seenAt && !spent.has(index) && entry.at >= out.intendedAt && leavesOpen(entry),
    );
    if (cause < 0) return [`${out.id} to ${who} is marked as perhaps repeated, and nothing had happened`];
    spent.add(cause);
    return [];
  });
}

const leavesOpen = (entry: Happened): boolean =>
  entry.kind === 'unanswered' || (entry.kind === 'killed' && LEAVES_OPEN.includes(entry.what));
