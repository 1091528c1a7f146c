import { Composer, GrammyError } from 'grammy';
import type { InlineKeyboardButton } from 'grammy/types';
import type { Action } from '../src/wording/answer.js';
import { buttonTooOld } from '../src/wording/strangers.js';
import type { BenchContext, BotDeps } from './context.js';
import { say } from './say.js';

/** Buttons: the press is acknowledged first, then carried out, and the button taken away. */
export function presses({ record, clock }: BotDeps): Composer<BenchContext> {
  const composer = new Composer<BenchContext>();
  composer.on('callback_query:data', async (ctx) => {
    const action = (await record.buttons.get(ctx.callbackQuery.data)) as Action | undefined;
    const { who } = ctx;
    if (who.kind === 'stranger' || action == null || ctx.chat === undefined) {
      await acknowledge(ctx, buttonTooOld());
      return;
    }
    await acknowledge(ctx);
    const at = await clock.now();
    const pressed = { key: ctx.key, person: who.person, chatId: ctx.chat.id, at, action };
    await say(ctx.api, record, ctx.chat.id, await ctx.visit.press(pressed), ctx.key);
    await takeAway(ctx);
  });
  return composer;
}

/** An acknowledgement that comes too late is no trouble: the press is carried out all the same. */
async function acknowledge(ctx: BenchContext, text?: string): Promise<void> {
  try {
    await ctx.answerCallbackQuery(text === undefined ? {} : { text, show_alert: true });
  } catch (error) {
    if (!(error instanceof GrammyError) || error.error_code !== 400) throw error;
  }
}

async function takeAway(ctx: BenchContext): Promise<void> {
  const data = ctx.callbackQuery?.data;
  const message = ctx.callbackQuery?.message;
  const rows = message && 'reply_markup' in message ? message.reply_markup?.inline_keyboard : undefined;
  if (rows === undefined) return;
  const isPressed = (button: InlineKeyboardButton): boolean =>
    'callback_data' in button && button.callback_data === data;
  const left = rows.map((row) => row.filter((button) => !isPressed(button))).filter((row) => row.length > 0);
  try {
    await ctx.editMessageReplyMarkup({ reply_markup: { inline_keyboard: left } });
  } catch (error) {
    if (!(error instanceof GrammyError) || error.error_code !== 400) throw error;
  }
}
