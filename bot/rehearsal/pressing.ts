import { notify } from './bot-state.js';
import type { Seen, SeenButton } from './seen.js';
import type { Hand } from './writing.js';

/** Picks a button: its text, its callback data, or a test. */
export type ButtonPick = string | ((button: SeenButton) => boolean);

/** A press under way: the callback query, and the update (null where the bot gets none). */
export type Pressed = { queryId: string; updateId: number | null };

/** The last of the messages that bears such a button, with it; throws, naming the buttons there are. */
export function bearing(
  messages: Seen[],
  pick: ButtonPick,
  messageId: number | undefined,
): { message: Seen; button: SeenButton } {
  const passes = (button: SeenButton): boolean =>
    typeof pick === 'string' ? button.text === pick || button.data === pick : pick(button);
  const asked = messages.filter((message) => messageId === undefined || message.messageId === messageId);
  for (const message of asked.toReversed()) {
    const button = message.buttons.flat().find(passes);
    if (button !== undefined) return { message, button };
  }
  const wanted = typeof pick === 'string' ? `"${pick}"` : 'like that';
  const there = asked.flatMap((message) => message.buttons.flat().map(({ text }) => text));
  throw new Error(`no button ${wanted}; there are: ${there.join(', ') || 'none'}`);
}

/** Presses a button: a callback query goes to the bot, and its spinner turns until the bot answers it. */
export function press(hand: Hand, message: Seen, button: SeenButton): Pressed {
  if (button.data === null) throw new Error(`the button "${button.text}" sends nothing to the bot`);
  hand.bot.happenings.emit('chat', {
    type: 'press',
    token: hand.bot.token,
    chatId: hand.room.chat.id,
    at: hand.at,
    personId: hand.user.id,
    text: button.text,
    messageId: message.messageId,
  });
  return query(hand, message, button.data);
}

/** Sends callback data that no button bears, as a hostile client can. */
export function query({ bot, room, user, at }: Hand, message: Seen, data: string): Pressed {
  const queryId = String(bot.nextNumber());
  bot.presses.set(queryId, { id: queryId, person: user, chatId: room.chat.id, at, answer: null });
  const callback_query = {
    id: queryId,
    from: user,
    message: message.raw,
    chat_instance: `${bot.me.id}${room.chat.id}`,
    data,
  };
  return { queryId, updateId: notify(bot, { callback_query }, at) };
}
