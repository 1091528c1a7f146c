import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findSpeech } from '../../../config/setup/find-speech.mjs';
import { filesIn, writeModel } from '../../../config/speech/model-files.js';
import { keepVoiceFiles } from '../../../config/speech/voice-files.js';
import { makeSpeechModel } from '../../../src/hearing/speech/model.js';
import { byPocketsphinx } from '../../../workers/pocketsphinx.js';
import { noteOf, speak, speechMissing } from '../../support/voices.js';
import type { WholeBot } from '../../support/whole-bot.js';
import { openWholeBot } from '../../support/whole-bot.js';

const missing = speechMissing();
if (missing !== null) process.stderr.write(`SKIPPED: no note is spoken to the shop (${missing})\n`);

describe.skipIf(missing !== null)('a note spoken to the shop', () => {
  let bot: WholeBot;
  let folder: string;

  beforeAll(async () => {
    const tools = findSpeech();
    if (tools === null) throw new Error('pocketsphinx is not there');
    folder = await mkdtemp(join(tmpdir(), 'benchhand-spoken-'));
    const model = join(folder, 'model');
    await writeModel(
      makeSpeechModel({ suppliers: [], machines: ['Ketterby'], owners: [], words: [] }),
      tools.compiler,
      model,
    );
    bot = await openWholeBot(
      ['relay', 'transcribe'],
      byPocketsphinx(
        tools,
        () => Promise.resolve(filesIn(model)),
        keepVoiceFiles(tools, folder, pino({ level: 'silent' })),
      ),
    );
  }, 60_000);

  afterAll(async () => {
    await bot.stop();
    await rm(folder, { recursive: true, force: true });
  });

  it('is heard: the chat shows that it is listened to, what was heard and the item logged', async () => {
    const opened = await bot.mechanic.say('new job: Ketterby 500 single');
    await bot.mechanic.waitFor(() => true, { after: opened.messageId });
    const [wav, note] = [join(folder, 'said.wav'), join(folder, 'said.oga')];
    await speak('the petrol tank is rusty', 'flite', 'rms', wav);
    await noteOf(wav, note, null);
    const calls: string[] = [];
    bot.rehearsal.on('call', ({ method }) => void calls.push(method));
    const { messageId } = await bot.mechanic.voice(await readFile(note), { seconds: 2 });
    const { text } = await bot.mechanic.waitFor((message) => message.text.startsWith('I heard:'), {
      after: messageId,
    });
    expect(text).toMatch(/^I heard: “.*petrol tank.*”/);
    expect(text).toContain('petrol tank: rusty');
    expect(calls).toContain('sendChatAction');
  }, 30_000);
});
