import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { open, stat, type FileHandle } from 'node:fs/promises';

/** The samples that are listened to: one channel, signed 16 bits. */
export const SAMPLES_PER_SECOND = 16_000;
const BYTES_PER_SECOND = 2 * SAMPLES_PER_SECOND;

/** A note is listened to for so long: most take under half a minute. */
export const LISTENED_SECONDS = 180;
/** What is shorter than this has no word in it. */
const SHORTEST_SECONDS = 0.15;
const DECODE_LIMIT_MS = 20_000;

/**
 * Steady noise is taken off before the sound is listened to: 12 dB by ffmpeg's afftdn, its floor following the note's own.
 * Pocketsphinx's own noise removal, in mel bands, is left off: with it both clean and noisy speech was heard worse.
 * Found, as the beams were, on other sentences than tests/bench/speech.ts measures by.
 */
const QUIETED = 'afftdn=nr=12:nf=-35:tn=1';

/** What a chat's voice note may be: OGG, MP3 or MPEG-4 (M4A). */
export type SoundForm = 'ogg' | 'mp3' | 'mov';

/**
 * The form of a sound by its first bytes, whatever it is called; null for all else, playlists among it. The marks are those of RFC 3533
 * (OggS), ID3v2 and ISO/IEC 11172-3 (eleven bits of sync), and ISO/IEC 14496-12 (ftyp).
 */
export function soundForm(start: Uint8Array): SoundForm | null {
  const mark = Buffer.from(start).toString('latin1');
  if (mark.startsWith('OggS')) return 'ogg';
  if (mark.slice(4, 8) === 'ftyp') return 'mov';
  const [first = 0, second = 0] = start;
  return mark.startsWith('ID3') || (first === 0xff && (second & 0xe0) === 0xe0) ? 'mp3' : null;
}

/** The decoders of what a voice note holds; a picture in a sound's tags is not so much as looked at. */
const DECODERS = 'opus,libopus,vorbis,libvorbis,mp3float,mp3,aac,alac';

/**
 * How ffmpeg is given the sound, so that it can read nothing else: its form is forced, and it comes by standard input, with no other way
 * to open anything. MPEG-4 is sought in, so it is opened as a file, with the tracks that lie in other files left out.
 */
function sourceOf(form: SoundForm, path: string): string[] {
  const known = ['-codec_whitelist', DECODERS, '-f', form];
  if (form !== 'mov') return [...known, '-protocol_whitelist', 'pipe', '-i', 'pipe:0'];
  const alone = ['-enable_drefs', '0', '-use_absolute_path', '0'];
  return [...known, ...alone, '-protocol_whitelist', 'file', '-i', `file:${path}`];
}

/** What came of decoding: how much there is to hear, in seconds, and whether the note goes on after it. */
export type Decoded = { readonly seconds: number; readonly cut: boolean };

/**
 * Writes a sound file's samples, no more than LISTENED_SECONDS and one second of them; null where it is no sound or too short. Throws
 * where ffmpeg (`decoder`) can't be started.
 */
export async function decodeSound(decoder: string, from: string, to: string): Promise<Decoded | null> {
  const note = await open(from, 'r');
  try {
    const { buffer, bytesRead } = await note.read(Buffer.alloc(12), 0, 12, 0);
    const form = soundForm(buffer.subarray(0, bytesRead));
    if (form === null || !(await runDecoder(decoder, sourceOf(form, from), to, note))) return null;
  } finally {
    await note.close();
  }
  const seconds = (await stat(to)).size / BYTES_PER_SECOND;
  return seconds < SHORTEST_SECONDS ? null : { seconds, cut: seconds > LISTENED_SECONDS };
}

/** False where it is turned away, or takes too long. */
async function runDecoder(decoder: string, source: string[], to: string, note: FileHandle): Promise<boolean> {
  const shape = ['-vn', '-af', QUIETED, '-ac', '1', '-ar', String(SAMPLES_PER_SECOND), '-f', 's16le'];
  // A second more than is listened to tells a note that goes on from one that ends there.
  const limit = ['-t', String(LISTENED_SECONDS + 1)];
  const options = ['-nostdin', '-v', 'error', ...source, ...shape, ...limit, `file:${to}`];
  const child = spawn(decoder, options, {
    stdio: [note.fd, 'ignore', 'ignore'],
    timeout: DECODE_LIMIT_MS,
    killSignal: 'SIGKILL',
  });
  const [code] = (await once(child, 'close')) as [number | null];
  return code === 0;
}
