import { z } from 'zod';
import type { BenchMessage } from '../bench-message.js';
import { badRequest } from '../faults.js';
import { flag, structured, whole } from '../params.js';
import type { Room } from '../rooms.js';
import { without } from '../without.js';

/** The parameter `reply_parameters`. */
export const replyParam = structured(
  z.looseObject({ message_id: whole, allow_sending_without_reply: flag.optional() }),
);

/** The quoted message of a reply, without what it replies to itself; nothing where none is asked for. */
export function replyTo(
  room: Room,
  reply: z.output<typeof replyParam> | undefined,
): Pick<BenchMessage, 'reply_to_message'> {
  if (reply === undefined) return {};
  const stored = room.messages.get(reply.message_id);
  if (stored !== undefined) return { reply_to_message: quoted(stored.message) };
  if (reply.allow_sending_without_reply === true) return {};
  throw badRequest('message to be replied not found');
}

/** A message as it appears inside another: it shows no further reply. Source: Bot API documentation, Message. */
export function quoted(message: BenchMessage): Quoted {
  // grammY says "absent" as `undefined`, which no value can be under exactOptionalPropertyTypes
  return without(message, 'reply_to_message') as Quoted;
}

type Quoted = NonNullable<BenchMessage['reply_to_message']>;
