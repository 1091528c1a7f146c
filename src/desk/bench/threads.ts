import { z } from 'zod';
import type { ShopRecord } from '../../record/types.js';
import type { Thread } from '../../wording/answer.js';

const threadSchema = z.object({
  jobs: z.array(z.string()),
  message: z.string(),
  item: z.number().nullable(),
});

/** What a message of a chat, in or out, was about. */
export async function threadOf(
  record: ShopRecord,
  chatId: number,
  messageId: number,
): Promise<Thread | null> {
  const parsed = threadSchema.safeParse(await record.chatMessages.get(chatId, messageId));
  return parsed.success ? parsed.data : null;
}
