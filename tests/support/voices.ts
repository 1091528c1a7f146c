import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { findSpeech, findVoice } from '../../config/setup/find-speech.mjs';

const run = promisify(execFile);

/** The engines that speak, and the voices of each that differ most: accents and formants of espeak-ng, recorded speakers of flite. */
export const VOICES = {
  'espeak-ng': ['en-gb', 'en-gb-x-rp+f3', 'en-gb-scotland+m3'],
  flite: ['slt', 'rms', 'awb'],
} as const;
export type Engine = keyof typeof VOICES;

/** What is missing for speaking and listening here; null where nothing is. */
export function speechMissing(): string | null {
  const missing = Object.keys(VOICES).filter((engine) => findVoice(engine) === null);
  if (findSpeech() === null) missing.push('pocketsphinx, its model or ffmpeg');
  return missing.length === 0 ? null : `no ${missing.join(', no ')}: 'npm run speech' fetches them`;
}

/** Speaks a text into a WAV file. */
export async function speak(text: string, engine: Engine, voice: string, path: string): Promise<void> {
  const program = findVoice(engine);
  if (program === null) throw new Error(`${engine} is not there`);
  const args =
    engine === 'flite'
      ? ['-voice', voice, '-t', text, '-o', path]
      : ['-v', voice, '-s', '150', '-w', path, text];
  await run(program, args);
}

/** Speech after `loudnorm` is at -20.9 dBFS RMS, the noise below at -24.2 (both measured by ffmpeg's astats). */
const ABOVE_NOISE = 24.2 - 20.9;

/**
 * Makes the OGG/Opus of a chat's voice note out of a WAV file, with a workshop's noise in it where a ratio is given: a mains hum
 * and its overtone, a motor's whine, and the broad noise of a compressor, mixed by power.
 */
export async function noteOf(wav: string, path: string, snr: number | null): Promise<void> {
  const tools = findSpeech();
  if (tools === null) throw new Error('ffmpeg is not there');
  const level = snr === null ? '' : `volume=${ABOVE_NOISE - snr}dB`;
  const noise = `anoisesrc=r=48000:c=pink:a=0.25:seed=1[n];sine=f=100:r=48000,volume=-9dB[h];sine=f=200:r=48000,volume=-15dB[o];sine=f=1250:r=48000,volume=-20dB[w];[n][h][o][w]amix=inputs=4:normalize=0,${level}[shop]`;
  const speech = '[0]aresample=48000,loudnorm=I=-20:TP=-2,aresample=48000[said]';
  const mixed = `${speech};${noise};[said][shop]amix=inputs=2:duration=first:normalize=0`;
  const filter = snr === null ? [] : ['-filter_complex', mixed];
  const opus = ['-ac', '1', '-c:a', 'libopus', '-b:a', '32k', '-f', 'ogg'];
  await run(tools.decoder, ['-nostdin', '-v', 'error', '-y', '-i', wav, ...filter, ...opus, path]);
}

/** A recording as a chat's voice note that goes on in silence to so many seconds. */
export async function longNoteOf(wav: string, path: string, seconds: number): Promise<void> {
  const tools = findSpeech();
  if (tools === null) throw new Error('ffmpeg is not there');
  const form = [
    '-af',
    `apad=whole_dur=${seconds}`,
    '-ac',
    '1',
    '-c:a',
    'libopus',
    '-b:a',
    '24k',
    '-f',
    'ogg',
  ];
  await run(tools.decoder, ['-nostdin', '-v', 'error', '-y', '-i', wav, ...form, path]);
}
