import { createHash } from 'node:crypto';
import { lstatSync, mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The longest path that a socket may have is 107 bytes on Linux (unix(7)) and 103 on macOS. */
const LONGEST = 103;

/** Where the server in `dir` listens: in the folder itself or, where that is too long a path, in one of ours in /tmp. */
export function socketFor(dir: string): string {
  const here = join(dir, 'redis.sock');
  if (Buffer.byteLength(here) <= LONGEST) return here;
  const name = createHash('sha256').update(dir).digest('hex').slice(0, 16);
  return join(ownFolder(join(tmpdir(), `benchhand-${name}`)), 'redis.sock');
}

/** In a folder shared with others, a name that can be guessed may have been taken by somebody else. */
function ownFolder(path: string): string {
  mkdirSync(path, { recursive: true, mode: 0o700 });
  const found = lstatSync(path);
  if (!found.isDirectory() || found.uid !== process.getuid?.() || (found.mode & 0o077) !== 0) {
    throw new Error(
      `${path} is not a folder of this user's alone; remove it, or set DATA_DIR to a shorter path`,
    );
  }
  return path;
}
