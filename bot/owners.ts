import type { Composer } from 'grammy';
import type { BenchContext, BotDeps } from './context.js';
import { listenAs } from './part.js';

export const OWNER_COMMANDS = {
  progress: 'when will it be ready?',
  start: 'when will it be ready?',
} as const;

/** What owners write: about their own machine alone. */
export function owners(deps: BotDeps): Composer<BenchContext> {
  return listenAs('owner', OWNER_COMMANDS, deps, 'owner');
}
