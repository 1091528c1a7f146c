import type { Api } from 'grammy';

/** The chat shows the sign for about five seconds (Bot API documentation, sendChatAction). */
const AGAIN_AFTER_MS = 4_000;

/** Has the chat show that something is being done while `work` runs. That it can't be shown stops nothing. */
export async function whileTyping<T>(api: Api, chatId: number, work: () => Promise<T>): Promise<T> {
  const show = (): void => {
    api.sendChatAction(chatId, 'typing').catch(() => undefined);
  };
  show();
  const timer = setInterval(show, AGAIN_AFTER_MS);
  try {
    return await work();
  } finally {
    clearInterval(timer);
  }
}
