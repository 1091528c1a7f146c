import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Seen } from '../../bot/rehearsal/seen.js';
import { FORTNIGHT_CAPTION } from '../../src/wording/fortnight.js';
import { pictureCaption } from '../../src/wording/plan.js';
import { MECHANICS, whoOf } from './players.js';
import type { Players } from './players.js';

/** Writes the pictures of the plan that the mechanics were sent into a folder; gives their paths, in the order sent. */
export async function saveDrawn(players: Players, folder: string): Promise<string[]> {
  const chats = MECHANICS.flatMap((chat) => whoOf(chat) ?? []);
  const drawn = chats.flatMap((who) => players[who].messages()).filter(isDrawn);
  return Promise.all(
    drawn.map(async ({ bytes }, index) => {
      const path = join(folder, `plan-${index + 1}.png`);
      await writeFile(path, bytes ?? '');
      return path;
    }),
  );
}

const isDrawn = ({ by, text, bytes }: Seen): boolean =>
  by === 'bot' && bytes !== null && (text === FORTNIGHT_CAPTION || text.endsWith(pictureCaption('')));
