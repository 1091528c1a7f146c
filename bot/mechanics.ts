import { Composer } from 'grammy';
import type { BenchContext, BotDeps } from './context.js';
import { spokenMessage, talk } from './talk.js';

/** The few commands a mechanic has, and the talk each stands for. */
export const MECHANIC_COMMANDS = {
  bench: 'machines',
  list: 'strip list',
  order: 'build order',
  people: 'people',
  rules: 'shop rules',
  help: 'help',
  start: 'help',
} as const;

/** What mechanics write: everything about every job. */
export function mechanics(deps: BotDeps): Composer<BenchContext> {
  const composer = new Composer<BenchContext>();
  composer.on(['message', 'edited_message'], async (ctx, next) => {
    const { who } = ctx;
    const message = spokenMessage(ctx, MECHANIC_COMMANDS);
    if (who.kind === 'stranger' || who.speaksAs !== 'mechanic' || message === undefined) return next();
    await talk(ctx, deps, who, message, deps.desk.bench);
  });
  return composer;
}
