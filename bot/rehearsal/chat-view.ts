import type { StoredMessage } from './bench-message.js';
import type { BotState } from './bot-state.js';
import type { Room } from './rooms.js';
import { seen, type Seen, type SeenButton } from './seen.js';

/** A chat as people look at it. */
export type ChatView = {
  /** The whole chat, oldest first. */
  messages: () => Seen[];
  /** The bot's messages alone. */
  fromBot: () => Seen[];
  last: () => Seen | null;
  buttons: () => SeenButton[];
  /** The bot's first message that passes, of those with an id above `after`. */
  find: (test: (message: Seen) => boolean, after: number) => Seen | null;
};

/** Looks at a room. Long chats are shown only as far as asked, since tests look after every change. */
export function chatView(bot: BotState, room: Room): ChatView {
  const show = (stored: StoredMessage): Seen => seen(stored, bot.files);
  const all = (): StoredMessage[] => [...room.messages.values()];
  const own = (): StoredMessage[] => all().filter(({ byBot }) => byBot);
  return {
    messages: () => all().map(show),
    fromBot: () => own().map(show),
    last: () => {
      const stored = own().at(-1);
      return stored === undefined ? null : show(stored);
    },
    buttons: () => {
      const stored = own().findLast(({ message }) => message.reply_markup !== undefined);
      return stored === undefined ? [] : show(stored).buttons.flat();
    },
    find: (test, after) => {
      for (const stored of own()) {
        if (stored.message.message_id <= after) continue;
        const message = show(stored);
        if (test(message)) return message;
      }
      return null;
    },
  };
}
