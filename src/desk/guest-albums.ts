import { z } from 'zod';
import type { JobCommand } from '../job/commands.js';
import type { Answer } from '../wording/answer.js';
import { NOTHING_TO_SAY } from '../wording/answer.js';
import { fetches } from './bench/carry-out.js';
import type { Incoming } from './desk.js';
import type { Workplace } from './workplace.js';

const albumSchema = z.object({ id: z.string(), jobs: z.array(z.string()), first: z.string() });

/**
 * Albums come in parts: a further picture of one, without words, is kept with the machines that its first was kept with;
 * nobody is told of each, nor thanked for each. Null where a message is none such.
 */
export async function keepMoreOfAlbum(place: Workplace, message: Incoming): Promise<Answer | null> {
  if (message.album === null || message.edited || message.text.trim() !== '') return null;
  const parsed = albumSchema.safeParse((await place.deps.record.context.get(message.person))['album']);
  if (!parsed.success || parsed.data.id !== message.album || parsed.data.first === message.key) return null;
  for (const job of parsed.data.jobs) {
    const change = {
      commandId: `${message.key}-${job}`,
      at: message.at,
      by: message.person,
      effects: fetches(job, message.attachments),
    };
    const note: JobCommand = {
      type: 'keep-note',
      target: null,
      text: `${message.key}-text`,
      attachments: message.attachments,
    };
    await place.store.toJob(job, { ...change, texts: { [note.text]: '' } }, [note]);
  }
  return NOTHING_TO_SAY;
}

/** Remembers with which machines an album's pictures are kept, and by which update, for when that comes again. */
export async function rememberAlbum(
  { deps }: Workplace,
  { album, person, key }: Incoming,
  jobs: readonly string[],
): Promise<void> {
  if (album === null || jobs.length === 0) return;
  await deps.record.context.set(person, { album: { id: album, jobs: [...jobs], first: key } });
}
