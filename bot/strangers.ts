import { strangerLine, oneToOneOnly } from '../src/wording/strangers.js';
import type { BenchContext } from './context.js';

/** Groups are declined: a line, and out again. */
export async function declineGroups(ctx: BenchContext, next: () => Promise<void>): Promise<void> {
  if (ctx.chat === undefined || ctx.chat.type === 'private') return next();
  if (ctx.myChatMember !== undefined || ctx.message !== undefined) {
    const status = ctx.myChatMember?.new_chat_member.status;
    if (status === 'left' || status === 'kicked') return;
    if (ctx.chat.type !== 'channel') await ctx.reply(oneToOneOnly());
    await ctx.leaveChat();
  }
}

/** Somebody the shop doesn't know gets one polite line and nothing else. */
export async function answerTheStranger(ctx: BenchContext): Promise<void> {
  if (ctx.who.kind === 'stranger' && ctx.message !== undefined) await ctx.reply(strangerLine());
}
