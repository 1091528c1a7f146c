import type { Role } from '../src/shop/events.js';
import { commandMenu } from '../src/wording/menus.js';
import type { BenchContext } from './context.js';

/** Which menu each chat has been given by this process. */
const given = new Map<number, Role>();

/** The command menu of the part somebody speaks in, put into their chat when it is first heard of, or changes. */
export async function showMenu(ctx: BenchContext): Promise<void> {
  if (ctx.chat?.type !== 'private' || ctx.who.kind === 'stranger') return;
  const { speaksAs } = ctx.who;
  if (given.get(ctx.chat.id) === speaksAs) return;
  await ctx.api.setMyCommands(commandMenu(speaksAs), { scope: { type: 'chat', chat_id: ctx.chat.id } });
  given.set(ctx.chat.id, speaksAs);
}
