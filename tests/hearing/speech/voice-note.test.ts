import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findSpeech } from '../../../config/setup/find-speech.mjs';
import { filesIn, writeModel } from '../../../config/speech/model-files.js';
import { voiceFiles } from '../../../config/speech/voice-files.js';
import { makeSpeechModel } from '../../../src/hearing/speech/model.js';
import { byPocketsphinx } from '../../../workers/pocketsphinx.js';
import type { Recognise } from '../../../workers/recogniser.js';
import { longNoteOf, noteOf, speak, speechMissing } from '../../support/voices.js';

const missing = speechMissing();
if (missing !== null) process.stderr.write(`SKIPPED: no voice note is listened to (${missing})\n`);

const SHOP = { suppliers: ['Pinder'], machines: [], owners: [], words: [] };

describe.skipIf(missing !== null)('a voice note', () => {
  let folder: string;
  let listen: Recognise;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'benchhand-note-'));
    const tools = findSpeech();
    if (tools === null) throw new Error('pocketsphinx is not there');
    const model = join(folder, 'model');
    // The compiler reads our ARPA file: a fault of its form fails here.
    await writeModel(makeSpeechModel(SHOP), tools.compiler, model);
    listen = byPocketsphinx(tools, () => Promise.resolve(filesIn(model)));
  }, 60_000);

  afterAll(() => rm(folder, { recursive: true, force: true }));

  it('in OGG/Opus is heard, with doubts that lie within its words', async () => {
    const [wav, note] = [join(folder, 'said.wav'), join(folder, 'said.oga')];
    await speak('the petrol tank is rusty', 'flite', 'rms', wav);
    await noteOf(wav, note, null);
    const heard = await listen(note, 'audio/ogg');
    expect(heard?.text).toContain('petrol tank');
    for (const { from, to } of heard?.doubts ?? []) {
      expect(from).toBeLessThan(to);
      expect(heard?.text.slice(from, to)).toMatch(/^\S+$/);
    }
  }, 30_000);

  const fits = findSpeech()?.fitter != null;
  it.skipIf(!fits)(
    'is heard where the recogniser is fitted to its voice, and where that fails',
    async () => {
      const tools = findSpeech();
      if (tools?.fitter == null) throw new Error('sphinxtrain is not there');
      const [wav, note] = [join(folder, 'fitted.wav'), join(folder, 'fitted.oga')];
      await speak('the petrol tank is rusty', 'flite', 'awb', wav);
      await noteOf(wav, note, null);
      const fitting = await voiceFiles(tools.acoustics, tools.fitter, folder);
      for (const counter of [fitting.counter, '/bin/false']) {
        const fitted = byPocketsphinx(
          tools,
          () => Promise.resolve(filesIn(join(folder, 'model'))),
          () => Promise.resolve({ ...fitting, counter }),
        );
        expect((await fitted(note, 'audio/ogg'))?.text).toContain('petrol tank');
      }
    },
    60_000,
  );

  it('of more than three minutes is heard so far, and says so', async () => {
    const [wav, note] = [join(folder, 'long.wav'), join(folder, 'long.oga')];
    await speak('the petrol tank is rusty', 'flite', 'rms', wav);
    await longNoteOf(wav, note, 200);
    expect(await listen(note, 'audio/ogg')).toMatchObject({
      text: expect.stringContaining('petrol tank') as string,
      upTo: 180,
    });
  }, 90_000);

  it.each([
    ['nothing', ''],
    ['a picture', '\x89PNG\r\n\x1a\n\0\0\0\rIHDR'],
    ['a play list', '#EXTM3U\n#EXTINF:10,\n/etc/passwd\n'],
    ['text', 'not a sound at all'],
    ['a list that names another file', 'ffconcat version 1.0\nfile /etc/passwd\n'],
    ['the beginning of a sound only', 'OggS\0\x02'],
  ])('that is %s is not made out, without a failure', async (_what, content) => {
    const path = join(folder, 'odd.oga');
    await writeFile(path, content);
    expect(await listen(path, 'audio/ogg')).toBeNull();
  });
});
