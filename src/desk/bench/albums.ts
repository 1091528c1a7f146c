import { z } from 'zod';
import { attachmentSchema } from '../../job/events.js';
import type { Answer } from '../../wording/answer.js';
import { NOTHING_TO_SAY } from '../../wording/answer.js';
import { pictureKept } from '../../wording/bench.js';
import type { Workplace } from '../workplace.js';
import type { Saying } from './carry-out.js';

const albumSchema = z.object({
  id: z.string(),
  /** Pictures that came before any words. */
  waiting: z.array(attachmentSchema),
  /** The item that the album's words spoke of; null: no words yet. */
  item: z.number().nullable(),
});

/**
 * One picture of an album. Albums come in parts, without an end mark, and any part may bear the words: pictures
 * before them are gathered for them, pictures after them go to the item they spoke of, and only words and the
 * first wordless picture are answered.
 */
export async function answerInAlbum(
  { deps }: Workplace,
  album: string,
  saying: Saying,
  carryOut: (saying: Saying, item: number | null) => Promise<Answer>,
): Promise<Answer> {
  const { context } = deps.record;
  const parsed = albumSchema.safeParse((await context.get(saying.person))['album']);
  const known = parsed.success && parsed.data.id === album ? parsed.data : null;
  const wordless = saying.text.trim() === '';
  const waiting = wordless || !known ? [] : known.waiting;
  const answer = await carryOut(
    { ...saying, attachments: [...waiting, ...saying.attachments] },
    known?.item ?? null,
  );
  const item = wordless ? (known?.item ?? null) : (answer.thread?.item ?? null);
  const stillWaiting = wordless && item === null ? [...(known?.waiting ?? []), ...saying.attachments] : [];
  await context.set(saying.person, { album: { id: album, waiting: stillWaiting, item } });
  if (!wordless) return answer;
  return known ? NOTHING_TO_SAY : pictureKept(answer);
}
