import type { BotCommand, User } from 'grammy/types';
import type { BenchMessage } from './bench-message.js';
import type { BotState } from './bot-state.js';
import { chatView } from './chat-view.js';
import { visibleCommands } from './command-menus.js';
import type { Clock } from './dispatch.js';
import { whenSeen, type WaitOptions } from './happenings.js';
import { bearing, press, query, type ButtonPick, type Pressed } from './pressing.js';
import type { Room } from './rooms.js';
import type { Seen, SeenButton } from './seen.js';
import { fileSending, type FileSending } from './sending-files.js';
import { formatted, rewrite, write, type Done, type Hand, type WritingOptions } from './writing.js';

/** A person's place in one chat: what they can do there and what they see. */
export type ChatSeat = FileSending & {
  chatId: number;
  user: User;
  /** Writes a text; commands in it get their entities. */
  say: (text: string, options?: WritingOptions) => Promise<Done>;
  /** Sends a message of any other kind: a location, a contact, a poll … */
  send: (content: Partial<BenchMessage>, options?: WritingOptions) => Promise<Done>;
  /** Changes a text or caption of the person's own. */
  edit: (messageId: number, text: string) => Promise<Done>;
  /** Presses a button of the bot's last message that bears it, or of the one given; throws where there is none. */
  press: (pick: ButtonPick, options?: { message?: number }) => Promise<Pressed>;
  /** Sends callback data that no button bears, from the bot's last message or the one given. */
  forge: (data: string, options?: { message?: number }) => Promise<Pressed>;
  /** The whole chat, oldest first, both directions, without what was deleted. */
  messages: () => Seen[];
  /** The last message of the bot, or null. */
  last: () => Seen | null;
  /** The buttons of the bot's last message that has any, row after row. */
  buttons: () => SeenButton[];
  /** What the bot answered to this person's presses, in order; null where it has not yet. */
  answers: () => ({ text: string; alert: boolean } | null)[];
  /** The commands that the person's menu shows. */
  menu: () => BotCommand[];
  /**
   * The first message of the bot that passes, there already or as it comes or is edited.
   * @param options `after` leaves out messages with ids up to it; `timeoutMs` (default 10 s) is machine time
   */
  waitFor: (test: (message: Seen) => boolean, options?: WaitOptions & { after?: number }) => Promise<Seen>;
};

/** Seats a person in a room. `arrive` is called before each thing they do, so that a chat opens when first used. */
export function seat(
  bot: BotState,
  room: Room,
  user: User,
  now: Clock,
  arrive: (at: number) => void,
): ChatSeat {
  const view = chatView(bot, room);
  const take = async (): Promise<Hand> => {
    const at = await now();
    arrive(at);
    return { bot, room, user, at };
  };
  return {
    ...fileSending(take),
    chatId: room.chat.id,
    user,
    say: async (text, options = {}) => write(await take(), formatted(text, options), options),
    send: async (content, options) => write(await take(), content, options),
    edit: async (messageId, text) => rewrite(await take(), messageId, text),
    press: async (pick, options = {}) => {
      const hand = await take();
      const { message, button } = bearing(view.fromBot(), pick, options.message);
      return press(hand, message, button);
    },
    forge: async (data, options = {}) => {
      const hand = await take();
      const message =
        options.message === undefined ? view.last() : view.find(() => true, options.message - 1);
      if (message === null) throw new Error('no message of the bot to press on');
      return query(hand, message, data);
    },
    messages: view.messages,
    last: view.last,
    buttons: view.buttons,
    answers: () =>
      [...bot.presses.values()]
        .filter((one) => one.chatId === room.chat.id && one.person.id === user.id)
        .map((one) => one.answer),
    menu: () => visibleCommands(bot.commands, room.chat, user),
    waitFor: (test, options = {}) =>
      whenSeen(
        bot.happenings,
        () => view.find(test, options.after ?? 0),
        options,
        () => `no such message for ${user.first_name}; the last was: ${view.last()?.text ?? '(none)'}`,
      ),
  };
}
