import { autoRetry } from '@grammyjs/auto-retry';
import { Bot } from 'grammy';
import type { UserFromGetMe } from 'grammy/types';
import { answerTheStranger, declineGroups } from './strangers.js';
import type { BenchContext, BotDeps } from './context.js';
import { mechanics } from './mechanics.js';
import { showMenu } from './menus.js';
import { owners } from './owners.js';
import { toTheEnd } from './patience.js';
import { presses } from './presses.js';
import { say } from './say.js';
import { starts } from './starts.js';
import { suppliers } from './suppliers.js';
import { keptForLater } from '../src/wording/bench.js';

export type BotOptions = BotDeps & {
  token: string;
  apiRoot: string;
  botInfo?: UserFromGetMe;
  signal: AbortSignal;
};

/**
 * The bot: who is it, which composer is theirs. Updates are handled one after the other and confirmed once done;
 * what can't be done now is tried again before anything behind it is taken.
 */
export function makeBot({ token, apiRoot, botInfo, signal, ...deps }: BotOptions): Bot<BenchContext> {
  const bot = new Bot<BenchContext>(token, { client: { apiRoot }, ...(botInfo ? { botInfo } : {}) });
  bot.api.config.use(autoRetry({ maxRetryAttempts: 3, maxDelaySeconds: 30, rethrowHttpErrors: true }));
  bot.use(async (ctx, next) => {
    ctx.key = `u${ctx.update.update_id}`;
    const log = deps.log.child({ update: ctx.update.update_id });
    await toTheEnd(next, {
      log,
      failed: () => deps.record.inbox.failed(ctx.key),
      giveUp: () => putAside(ctx, deps),
      signal,
    });
  });
  bot.use(declineGroups);
  bot.use(async (ctx, next) => {
    ctx.who = ctx.chat ? await deps.desk.who(ctx.chat.id) : { kind: 'stranger' };
    await showMenu(ctx);
    await next();
  });
  bot.use(starts(deps));
  bot.use(presses(deps));
  bot.use(mechanics(deps));
  bot.use(suppliers(deps));
  bot.use(owners(deps));
  bot.use(answerTheStranger);
  return bot;
}

/** An update that fails again and again is kept raw, the mechanics are told, and the writer too. */
async function putAside(ctx: BenchContext, { desk, clock, record }: BotDeps): Promise<void> {
  await desk.poisoned(ctx.key, ctx.update, await clock.now());
  if (ctx.chat?.type === 'private') await say(ctx.api, record, ctx.chat.id, keptForLater(), ctx.key);
}
