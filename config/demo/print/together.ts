import type { ChatEvent } from '../../../bot/rehearsal/happenings.js';

export type Spoken = Extract<ChatEvent, { type: 'message' | 'edit' }>;

/** A message of ours, with the other chats that were told the same. */
export type Told = { event: Spoken; others: number[] };

/**
 * What was said at one instant, in an order to read it in whichever worker was quicker: the answer to whoever acted
 * first, then chat by chat; the same said to several once.
 */
export function toldTogether(said: readonly Spoken[], actor: number | null): Told[] {
  const rank = ({ chatId }: Spoken): number => (chatId === actor ? -1 : chatId);
  const told: Told[] = [];
  for (const event of [...said].sort((one, other) => rank(one) - rank(other))) {
    const same = told.find((each) => saysTheSame(each, event));
    if (same) same.others.push(event.chatId);
    else told.push({ event, others: [] });
  }
  return told;
}

function saysTheSame({ event, others }: Told, other: Spoken): boolean {
  return event.chatId !== other.chatId && !others.includes(other.chatId) && look(event) === look(other);
}

function look({ message: { text, caption, photo, reply_markup } }: Spoken): string {
  const buttons = reply_markup?.inline_keyboard.map((row) => row.map((button) => button.text));
  return JSON.stringify([text, caption, photo === undefined, buttons]);
}
