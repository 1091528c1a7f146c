import type { Message } from 'grammy/types';
import type { Incoming } from '../src/desk/desk.js';
import type { Answer } from '../src/wording/answer.js';
import { cannotRead } from '../src/wording/strangers.js';
import type { BenchContext, BotDeps, Known } from './context.js';
import { incomingFrom } from './incoming.js';
import { say } from './say.js';

/** Hands a message, new or edited, to a use case and says what it answers. */
export async function talk(
  ctx: BenchContext,
  { record }: BotDeps,
  who: Known,
  message: Message,
  answerTo: (incoming: Incoming) => Promise<Answer>,
): Promise<void> {
  const incoming = incomingFrom(message, ctx.key, who.person);
  const answer = incoming === null ? cannotRead() : await answerTo(incoming);
  await say(
    ctx.api,
    record,
    message.chat.id,
    answer,
    ctx.key,
    isLong(message) ? message.message_id : undefined,
  );
}

/** A reply is tied to its message where the chat may have moved on: voice notes and pictures. */
function isLong({ voice, photo }: Message): boolean {
  return voice !== undefined || photo !== undefined;
}

/** The message of an update, with a command put into the words that it stands for. */
export function spokenMessage(
  ctx: BenchContext,
  words: Readonly<Record<string, string>>,
): Message | undefined {
  const message = ctx.message ?? ctx.editedMessage;
  const command = /^\/([a-z_]+)(?:@\w+)?(?:\s+(.*))?$/s.exec(message?.text ?? '');
  if (message === undefined || command === null) return message;
  const meant = words[command[1] ?? ''];
  return meant === undefined ? message : { ...message, text: `${meant} ${command[2] ?? ''}`.trim() };
}
