import { z } from 'zod';
import type { ShopRecord } from '../../record/types.js';

const contextSchema = z.object({
  /** The job on this mechanic's bench. */
  bench: z.string().optional(),
  last: z.object({ job: z.string(), item: z.number() }).optional(),
  /** The last message that changed a job, for a bare 'undo'. */
  lastMessage: z.object({ job: z.string(), message: z.string() }).optional(),
});
export type BenchContext = z.infer<typeof contextSchema>;

/** What this mechanic has before them; something unreadable is as good as nothing. */
export async function benchContext(record: ShopRecord, person: string): Promise<BenchContext> {
  const parsed = contextSchema.safeParse(await record.context.get(person));
  return parsed.success ? parsed.data : {};
}

export async function remember(record: ShopRecord, person: string, patch: BenchContext): Promise<void> {
  await record.context.set(person, patch);
}
