import { autoRetry } from '@grammyjs/auto-retry';
import { Bot, Composer } from 'grammy';
import type { UserFromGetMe } from 'grammy/types';
import { answerTheStranger, declineGroups } from './strangers.js';
import type { BenchContext, BotDeps } from './context.js';
import { mechanics } from './mechanics.js';
import { showMenu } from './menus.js';
import { nameOf } from './names.js';
import { owners } from './owners.js';
import { toTheEnd } from './patience.js';
import { presses } from './presses.js';
import { say } from './say.js';
import { makeChatPause } from './say/pause.js';
import type { ChatPause } from './say/pause.js';
import { starts } from './starts.js';
import { suppliers } from './suppliers.js';
import { keptForLater } from '../src/wording/bench.js';

export type BotOptions = BotDeps & {
  token: string;
  apiRoot: string;
  /** After how long a call without an answer is given up. (Default: grammY's 500 s) */
  timeoutSeconds?: number;
  botInfo?: UserFromGetMe;
  /** What others of this process learn of the server's pauses, and tell. (Default: its own) */
  pause?: ChatPause;
  signal: AbortSignal;
};

/** A short 429 is waited out; anything else is for `toTheEnd`. */
const PATIENCE = {
  maxRetryAttempts: 3,
  maxDelaySeconds: 30,
  rethrowHttpErrors: true,
  rethrowInternalServerErrors: true,
};

/**
 * The bot: who is it, which composer is theirs. Updates are handled one after the other and confirmed once done;
 * what can't be done now is tried again before anything behind it is taken.
 */
export function makeBot(options: BotOptions): Bot<BenchContext> {
  const { token, apiRoot, timeoutSeconds, botInfo, pause = makeChatPause(), signal, ...deps } = options;
  const client = { apiRoot, ...(timeoutSeconds === undefined ? {} : { timeoutSeconds }) };
  const bot = new Bot<BenchContext>(token, { client, ...(botInfo ? { botInfo } : {}) });
  bot.api.config.use(pause.transformer);
  bot.api.config.use(autoRetry(PATIENCE));
  const handle = parts(deps).middleware();
  bot.use(async (ctx) => {
    ctx.key = `u${ctx.update.update_id}`;
    const log = deps.log.child({ updateId: ctx.update.update_id });
    // Run anew at each try: grammY lets nobody call the same `next` twice.
    const attempt = async (): Promise<void> => void (await handle(ctx, () => Promise.resolve()));
    await toTheEnd(attempt, {
      log,
      failed: () => deps.record.inbox.failed(ctx.key),
      giveUp: () => putAside(ctx, deps),
      signal,
    });
  });
  return bot;
}

/** Who is it, and which composer is theirs. */
function parts(deps: BotDeps): Composer<BenchContext> {
  const composer = new Composer<BenchContext>();
  composer.use(declineGroups);
  composer.use(async (ctx, next) => {
    ctx.who = { kind: 'stranger' };
    if (ctx.chat === undefined) return next();
    ctx.visit = deps.desk.visit(ctx.chat.id, ctx.key, ctx.message?.text);
    ctx.who = await ctx.visit.who();
    if (ctx.who.kind === 'person' && ctx.from) await ctx.visit.calledInChat(ctx.who.person, nameOf(ctx.from));
    await showMenu(ctx);
    await next();
    await ctx.visit.kept();
  });
  composer.use(starts(deps));
  composer.use(presses(deps));
  composer.use(mechanics(deps));
  composer.use(suppliers(deps));
  composer.use(owners(deps));
  composer.use(answerTheStranger);
  return composer;
}

/** An update that fails again and again is kept raw, the mechanics are told, and the writer too. */
async function putAside(ctx: BenchContext, { desk, clock, record }: BotDeps): Promise<void> {
  await desk.poisoned(ctx.key, ctx.update, await clock.now());
  if (ctx.chat?.type === 'private') await say(ctx.api, record, ctx.chat.id, keptForLater(), ctx.key);
}
