import type { MessageOrigin, User } from 'grammy/types';
import type { BenchMessage } from './bench-message.js';
import { notify, post, revise, seconds, type BotState } from './bot-state.js';
import type { Clock } from './dispatch.js';
import { findEntities } from './entities.js';
import { whenSeen, type WaitOptions } from './happenings.js';
import { quoted } from './methods/replies.js';
import type { Room } from './rooms.js';
import { seen, type Seen, type SeenButton } from './seen.js';
import type { Formatted } from './text.js';
import { without } from './without.js';

/** What a message a person writes may have beside its words. */
export type WritingOptions = {
  replyTo?: number;
  entities?: Formatted['entities'];
  /** Whose message is passed on: a name (of somebody who hides their account) or a user. */
  forwardFrom?: string | User;
};

/** What happened to something that a person did: the message, and the update (null where the bot asked for none). */
export type Done = { messageId: number; updateId: number | null };

/** Picks a button: its text, its callback data, or a test. */
export type ButtonPick = string | ((button: SeenButton) => boolean);

/** A person's place in one chat: what they can do there and what they see. */
export type ChatSeat = {
  chatId: number;
  user: User;
  /** Writes a text; commands in it get their entities. */
  say: (text: string, options?: WritingOptions) => Promise<Done>;
  /** Changes a text or caption of the person's own. */
  edit: (messageId: number, text: string) => Promise<Done>;
  /** Presses a button of the bot's last message that bears it, or of the one given; throws where there is none. */
  press: (
    pick: ButtonPick,
    options?: { message?: number },
  ) => Promise<{ queryId: string; updateId: number | null }>;
  /** The whole chat, oldest first, both directions; without what was deleted. */
  messages: () => Seen[];
  /** The last message of the bot, or null. */
  last: () => Seen | null;
  /** The buttons of the bot's last message that has any, row after row. */
  buttons: () => SeenButton[];
  /** What the bot answered to presses, in order; null where it has not yet. */
  answers: () => ({ text: string; alert: boolean } | null)[];
  /** The first message of the bot that passes, there already or as it comes or is edited; `after` leaves out ids up to it. */
  waitFor: (test: (message: Seen) => boolean, options?: WaitOptions & { after?: number }) => Promise<Seen>;
};

/** Seats a person in a room. `begin` is called before each thing they do, so that a chat opens when first used. */
export function seat(
  bot: BotState,
  room: Room,
  user: User,
  now: Clock,
  begin: (at: number) => void,
): ChatSeat {
  const shown = (): Seen[] => [...room.messages.values()].map((stored) => seen(stored, bot.files));
  const fromBot = (): Seen[] => shown().filter((message) => message.by === 'bot');
  return {
    chatId: room.chat.id,
    user,
    say: async (text, options = {}) => {
      const at = await now();
      begin(at);
      return write(bot, room, user, at, said(text, options), options);
    },
    edit: async (messageId, text) => {
      const at = await now();
      const edited = reworded(room, user, messageId, text, seconds(at));
      revise(bot, room, { from: user, byBot: false, now: at }, edited);
      return { messageId, updateId: notify(bot, { edited_message: edited }, at) };
    },
    press: async (pick, options = {}) => {
      const at = await now();
      const message = bearing(fromBot(), pick, options.message);
      return pressed(bot, room, user, at, message);
    },
    messages: shown,
    last: () => fromBot().at(-1) ?? null,
    buttons: () =>
      fromBot()
        .findLast((message) => message.buttons.length > 0)
        ?.buttons.flat() ?? [],
    answers: () =>
      [...bot.presses.values()]
        .filter((press) => press.chatId === room.chat.id && press.person.id === user.id)
        .map((press) => press.answer),
    waitFor: (test, options = {}) =>
      whenSeen(
        bot.happenings,
        () => fromBot().find((message) => message.messageId > (options.after ?? 0) && test(message)) ?? null,
        options,
        () => `no such message for ${user.first_name}; the last was: ${fromBot().at(-1)?.text ?? '(none)'}`,
      ),
  };
}

/** Stores what a person sends, with reply and origin, and queues it for the bot. */
export function write(
  bot: BotState,
  room: Room,
  user: User,
  at: number,
  content: Partial<BenchMessage>,
  options: WritingOptions,
): Done {
  const reply = options.replyTo === undefined ? undefined : room.messages.get(options.replyTo);
  if (options.replyTo !== undefined && reply === undefined)
    throw new Error(`no message ${options.replyTo} to reply to`);
  const message = post(
    bot,
    room,
    { from: user, byBot: false, now: at },
    {
      ...content,
      ...(reply === undefined ? {} : { reply_to_message: quoted(reply.message) }),
      ...(options.forwardFrom === undefined
        ? {}
        : { forward_origin: origin(options.forwardFrom, seconds(at)) }),
    },
  );
  return { messageId: message.message_id, updateId: notify(bot, { message }, at) };
}

function said(text: string, options: WritingOptions): Formatted {
  const entities = options.entities ?? findEntities(text);
  return entities.length === 0 ? { text } : { text, entities };
}

function origin(from: string | User, date: number): MessageOrigin {
  return typeof from === 'string'
    ? { type: 'hidden_user', sender_user_name: from, date }
    : { type: 'user', sender_user: from, date };
}

function reworded(
  room: Room,
  user: User,
  messageId: number,
  text: string,
  date: number,
): BenchMessage & { edit_date: number } {
  const stored = room.messages.get(messageId);
  if (stored === undefined || stored.message.from.id !== user.id)
    throw new Error(`no message ${messageId} of theirs to edit`);
  const rest = without(stored.message, 'text', 'entities', 'caption', 'caption_entities');
  const entities = findEntities(text);
  const isText = stored.message.text !== undefined;
  const marks = entities.length === 0 ? {} : isText ? { entities } : { caption_entities: entities };
  return { ...rest, ...(isText ? { text } : { caption: text }), ...marks, edit_date: date };
}

type Borne = { message: Seen; button: SeenButton };

function bearing(messages: Seen[], pick: ButtonPick, messageId: number | undefined): Borne {
  const passes = (button: SeenButton): boolean =>
    typeof pick === 'string' ? button.text === pick || button.data === pick : pick(button);
  const candidates = messages.filter((message) => messageId === undefined || message.messageId === messageId);
  for (const message of candidates.reverse()) {
    const button = message.buttons.flat().find(passes);
    if (button !== undefined) return { message, button };
  }
  const there = messages.flatMap((message) => message.buttons.flat().map((button) => button.text));
  throw new Error(
    `no button ${typeof pick === 'string' ? `"${pick}"` : 'like that'}; there are: ${there.join(', ') || 'none'}`,
  );
}

function pressed(
  bot: BotState,
  room: Room,
  user: User,
  at: number,
  { message, button }: Borne,
): { queryId: string; updateId: number | null } {
  if (button.data === null) throw new Error(`the button "${button.text}" sends nothing to the bot`);
  const queryId = String(bot.nextNumber());
  bot.presses.set(queryId, { id: queryId, person: user, chatId: room.chat.id, at, answer: null });
  bot.happenings.emit('chat', {
    type: 'press',
    token: bot.token,
    chatId: room.chat.id,
    at,
    personId: user.id,
    text: button.text,
    messageId: message.messageId,
  });
  const query = {
    id: queryId,
    from: user,
    message: message.raw,
    chat_instance: `${bot.me.id}${room.chat.id}`,
    data: button.data,
  };
  return { queryId, updateId: notify(bot, { callback_query: query }, at) };
}
