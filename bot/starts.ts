import { Composer } from 'grammy';
import type { BenchContext, BotDeps } from './context.js';
import { nameOf } from './names.js';
import { say } from './say.js';

/** Deep links: an invitation's secret comes as the payload of a start. */
export function starts({ record }: BotDeps): Composer<BenchContext> {
  const composer = new Composer<BenchContext>();
  composer.chatType('private').command('start', async (ctx, next) => {
    const secret = ctx.match.trim();
    if (secret === '') return next();
    const at = ctx.message.date * 1000;
    const answer = await ctx.visit.takeInvitation({
      key: ctx.key,
      chatId: ctx.chat.id,
      name: nameOf(ctx.from),
      secret,
      at,
    });
    await say(ctx.api, record, ctx.chat.id, answer, ctx.key);
  });
  return composer;
}
