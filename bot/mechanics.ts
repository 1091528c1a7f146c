import type { Composer } from 'grammy';
import type { BenchContext, BotDeps } from './context.js';
import { listenAs } from './part.js';

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
  return listenAs('mechanic', MECHANIC_COMMANDS, deps, 'bench');
}
