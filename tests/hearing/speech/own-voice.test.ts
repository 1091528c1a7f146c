import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findSpeech } from '../../../config/setup/find-speech.mjs';
import { voiceFiles } from '../../../config/speech/voice-files.js';
import { fitVoice, type VoiceFiles } from '../../../workers/own-voice.js';
import { speak, speechMissing } from '../../support/voices.js';

const run = promisify(execFile);
const missing = speechMissing() ?? (findSpeech()?.fitter == null ? "no sphinxtrain: 'npm run speech'" : null);
if (missing !== null) process.stderr.write(`SKIPPED: the recogniser is fitted to no voice (${missing})\n`);

const SAID = ['the', 'tank', 'is', 'rusty'];
const DICTIONARY = 'is IH Z\nrusty R AH S T IY\ntank T AE NG K\nthe DH AH\n';

/** What leaves the model as it is: ones on the diagonal of each stream's matrix, nothing added. */
const IDENTITY_ROWS = 39;

describe.skipIf(missing !== null)('a voice', () => {
  let folder: string;
  let files: VoiceFiles;

  beforeAll(async () => {
    const tools = findSpeech();
    if (tools?.fitter == null) throw new Error('sphinxtrain is not there');
    folder = await mkdtemp(join(tmpdir(), 'benchhand-voice-test-'));
    files = await voiceFiles(tools.acoustics, tools.fitter, folder);
    const wav = join(folder, 'said.wav');
    await speak(SAID.join(' '), 'flite', 'awb', wav);
    await run(tools.decoder, [
      ...['-nostdin', '-v', 'error', '-i', wav],
      ...['-ac', '1', '-ar', '16000', '-f', 's16le', join(folder, 'note.raw')],
    ]);
    await writeFile(join(folder, 'words.dic'), DICTIONARY);
  }, 60_000);

  afterAll(() => rm(folder, { recursive: true, force: true }));

  const fit = (words: readonly string[]): Promise<string | null> =>
    fitVoice(files, join(folder, 'note.raw'), words, join(folder, 'words.dic'));

  it('is fitted by the words that were heard: the means move', async () => {
    const path = await fit(SAID);
    const rows = (await readFile(path ?? '', 'utf8'))
      .split('\n')
      .map((line) => line.trim().split(/\s+/).map(Number))
      .filter((row) => row.length === 13);
    expect(rows.length).toBeGreaterThanOrEqual(IDENTITY_ROWS);
    const moved = rows.flat().filter((value) => value !== 0 && value !== 1);
    expect(moved.length).toBeGreaterThan(100);
    expect(rows.flat().every(Number.isFinite)).toBe(true);
  }, 30_000);

  it('whose words are in no dictionary leaves the model as it is', async () => {
    expect(await fit(['xylophone'])).toBeNull();
  }, 30_000);
});
