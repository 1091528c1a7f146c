import { Composer } from 'grammy';
import type { BenchContext, BotDeps } from './context.js';
import { spokenMessage, talk } from './talk.js';

export const SUPPLIER_COMMANDS = {
  mine: 'what have I got of yours?',
  start: 'what have I got of yours?',
} as const;

/** What suppliers write: about their own lines alone. */
export function suppliers(deps: BotDeps): Composer<BenchContext> {
  const composer = new Composer<BenchContext>();
  composer.on(['message', 'edited_message'], async (ctx, next) => {
    const { who } = ctx;
    const message = spokenMessage(ctx, SUPPLIER_COMMANDS);
    if (who.kind === 'stranger' || who.speaksAs !== 'supplier' || message === undefined) return next();
    await talk(ctx, deps, who, message, deps.desk.supplier);
  });
  return composer;
}
