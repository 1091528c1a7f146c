import { Composer } from 'grammy';
import type { Role } from '../src/shop/events.js';
import type { BenchContext, BotDeps } from './context.js';
import { spokenMessage, talk } from './talk.js';

/** Takes the messages, new and edited, of those who speak in one part; others' are left to the next composer. */
export function listenAs(
  role: Role,
  commands: Readonly<Record<string, string>>,
  deps: BotDeps,
  part: 'bench' | 'owner' | 'supplier',
): Composer<BenchContext> {
  const composer = new Composer<BenchContext>();
  composer.on(['message', 'edited_message'], async (ctx, next) => {
    const { who } = ctx;
    const message = spokenMessage(ctx, commands);
    if (who.kind === 'stranger' || who.speaksAs !== role || message === undefined) return next();
    await talk(ctx, deps, who, message, ctx.visit[part]);
  });
  return composer;
}
