import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findSpeech } from '../../../config/setup/find-speech.mjs';
import { decodeSound, LISTENED_SECONDS, soundForm } from '../../../workers/sound-file.js';

const run = promisify(execFile);
const decoder = findSpeech()?.decoder ?? null;
if (decoder === null)
  process.stderr.write("SKIPPED: no hostile sound is decoded (no ffmpeg: 'npm run speech' fetches it)\n");

/** The smallest PNG, 1 x 1, as the PNG specification (ISO/IEC 15948) lays it out. */
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==',
  'base64',
);

describe.skipIf(decoder === null)('hostile sound', () => {
  let folder: string;
  const at = (name: string): string => join(folder, name);
  const decode = async (name: string) => {
    const samples = at('samples.raw');
    await rm(samples, { force: true });
    return decodeSound(decoder ?? '', at(name), samples);
  };
  /** A sound of ffmpeg's own making, in the form that the name's ending asks for. */
  const make = (name: string, filter: string, ...options: string[]) =>
    run(decoder ?? '', ['-nostdin', '-v', 'error', '-y', '-f', 'lavfi', '-i', filter, ...options, at(name)]);

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'benchhand-hostile-'));
    await make('other.ogg', 'sine=f=440:d=2', '-c:a', 'libopus');
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  it.each([
    ['nothing', () => ''],
    ['text', () => 'not a sound at all'],
    ['a playlist', () => `#EXTM3U\n#EXTINF:2,\nfile://${at('other.ogg')}\n#EXT-X-ENDLIST\n`],
    ['a list of sounds', () => `ffconcat version 1.0\nfile ${at('other.ogg')}\n`],
    ['a picture', () => PNG],
    ['a picture that begins as OGG does', () => Buffer.concat([Buffer.from('OggS'), PNG])],
    ['a list that begins as OGG does', () => `OggS\nffconcat version 1.0\nfile ${at('other.ogg')}\n`],
    ['a playlist that begins as MP3 does', () => `ID3\n#EXTM3U\nfile://${at('other.ogg')}\n`],
    ['a playlist that begins as MPEG-4 does', () => `....ftyp\n#EXTM3U\nfile://${at('other.ogg')}\n`],
  ])('that is %s is no sound, and nothing but it is read', async (_what, content) => {
    await writeFile(at('note.oga'), content());
    expect(await decode('note.oga')).toBeNull();
  });

  it.each([
    ['note.ogg', ['-c:a', 'libopus']],
    ['note.mp3', ['-c:a', 'libmp3lame']],
    ['note.m4a', ['-c:a', 'aac']],
  ])('decodes an honest %s', async (name, options) => {
    await make(name, 'sine=f=440:d=2', ...options);
    const decoded = await decode(name);
    expect(decoded?.seconds).toBeCloseTo(2, 0);
    expect(decoded?.cut).toBe(false);
  });

  it('takes what there is of a sound that breaks off', async () => {
    await make('long.ogg', 'sine=f=440:d=20', '-c:a', 'libopus');
    const whole = await readFile(at('long.ogg'));
    await writeFile(at('broken.ogg'), whole.subarray(0, whole.length / 2));
    const decoded = await decode('broken.ogg');
    expect(decoded?.seconds).toBeGreaterThan(5);
    expect(decoded?.seconds).toBeLessThan(20);
  });

  it('of four hours of silence takes three minutes, and says that it goes on', async () => {
    await make('minutes.ogg', 'anullsrc=r=48000:cl=mono', '-t', '120', '-c:a', 'libopus', '-b:a', '6k');
    const again = ['-stream_loop', '119', '-i', at('minutes.ogg'), '-c', 'copy', at('hours.ogg')];
    await run(decoder ?? '', ['-nostdin', '-v', 'error', '-y', ...again]);
    const decoded = await decode('hours.ogg');
    expect(decoded?.cut).toBe(true);
    expect(decoded?.seconds).toBeCloseTo(LISTENED_SECONDS + 1, 0);
  }, 120_000);
});

it('knows a sound by its first bytes alone', () => {
  expect(soundForm(Buffer.from('OggS\0\x02'))).toBe('ogg');
  expect(soundForm(Buffer.from('\0\0\0\x1cftypM4A '))).toBe('mov');
  expect(soundForm(Buffer.from([0xff, 0xfb, 0x90, 0]))).toBe('mp3');
  for (const other of ['', 'RIFF....WAVE', '#EXTM3U', 'ffconcat version 1.0', '<svg>', '\x1aE\xdf\xa3'])
    expect(soundForm(Buffer.from(other, 'latin1'))).toBeNull();
});
