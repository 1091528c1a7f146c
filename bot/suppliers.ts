import type { Composer } from 'grammy';
import type { BenchContext, BotDeps } from './context.js';
import { listenAs } from './part.js';

export const SUPPLIER_COMMANDS = {
  mine: 'what have I got of yours?',
  start: 'what have I got of yours?',
} as const;

/** What suppliers write: about their own lines alone. */
export function suppliers(deps: BotDeps): Composer<BenchContext> {
  return listenAs('supplier', SUPPLIER_COMMANDS, deps, 'supplier');
}
