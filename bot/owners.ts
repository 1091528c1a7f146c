import { Composer } from 'grammy';
import type { BenchContext, BotDeps } from './context.js';
import { spokenMessage, talk } from './talk.js';

export const OWNER_COMMANDS = {
  progress: 'when will it be ready?',
  start: 'when will it be ready?',
} as const;

/** What owners write: about their own machine alone. */
export function owners(deps: BotDeps): Composer<BenchContext> {
  const composer = new Composer<BenchContext>();
  composer.on(['message', 'edited_message'], async (ctx, next) => {
    const { who } = ctx;
    const message = spokenMessage(ctx, OWNER_COMMANDS);
    if (who.kind === 'stranger' || who.speaksAs !== 'owner' || message === undefined) return next();
    await talk(ctx, deps, who, message, deps.desk.owner);
  });
  return composer;
}
