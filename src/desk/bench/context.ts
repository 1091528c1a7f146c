import { z } from 'zod';
import { readingSchema } from '../../hearing/reading.js';
import { attachmentSchema } from '../../job/events.js';
import type { ShopRecord } from '../../record/types.js';

const contextSchema = z.object({
  /** The job on this mechanic's bench. */
  bench: z.string().optional(),
  /** The item last spoken of, and when. */
  last: z.object({ job: z.string(), item: z.number(), at: z.number() }).optional(),
  /** The last message that changed a job, for a bare 'undo'. */
  lastMessage: z.object({ job: z.string(), message: z.string() }).optional(),
  /** What the last message was read as, so that it can be put right in a few words. */
  lastSaid: z
    .object({
      job: z.string(),
      message: z.string(),
      messageId: z.number(),
      reading: readingSchema,
      attachments: z.array(attachmentSchema),
      /** The update that it came by, or was last put right by. */
      key: z.string().optional(),
    })
    .optional(),
});
export type BenchContext = z.infer<typeof contextSchema>;

/** Talk without a name means what was spoken of last for so long; not the next morning any more. */
const LAST_HOLDS_MS = 8 * 3_600_000;

/** The item that talk without a name means on a job, at an instant; null where none was spoken of lately. */
export function lastOn(job: string | null, { last }: BenchContext, at: number): number | null {
  return last && last.job === job && at - last.at <= LAST_HOLDS_MS ? last.item : null;
}

/** What this mechanic has before them; something unreadable is as good as nothing. */
export async function benchContext(record: ShopRecord, person: string): Promise<BenchContext> {
  const parsed = contextSchema.safeParse(await record.context.get(person));
  return parsed.success ? parsed.data : {};
}

export async function remember(record: ShopRecord, person: string, patch: BenchContext): Promise<void> {
  await record.context.set(person, patch);
}
