import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Heard } from '../../src/desk/heard.js';
import type { WholeBot } from '../support/whole-bot.js';
import { openWholeBot } from '../support/whole-bot.js';

let bot: WholeBot;
let heard: Heard | null = null;

beforeAll(async () => {
  bot = await openWholeBot(['relay', 'transcribe'], () => Promise.resolve(heard));
  const opened = await bot.mechanic.say('new job: Ketterby 500 single');
  await bot.mechanic.waitFor(() => true, { after: opened.messageId });
});
afterAll(() => bot.stop());

/** What the chat says of a voice note, after it has said that it listens. */
async function answerTo(what: Heard | null): Promise<string> {
  heard = what;
  const { messageId } = await bot.mechanic.voice(Buffer.from('OggS'), { seconds: 240 });
  const answered = await bot.mechanic.waitFor(({ text }) => !text.startsWith('Listening'), {
    after: messageId,
  });
  return answered.text;
}

it('a note heard to its third minute says so, above what was heard', async () => {
  const said = await answerTo({ text: 'petrol tank rusty', doubts: [], upTo: 180 });
  expect(said).toMatch(/first 3 minutes only.*another/);
  expect(said).toContain('I heard: “petrol tank rusty”');
  expect(said).toContain('petrol tank: rusty');
});

it('a note with no words in its first minutes says both', async () => {
  const said = await answerTo({ text: '', doubts: [], upTo: 180 });
  expect(said).toMatch(/first 3 minutes only/);
  expect(said).toMatch(/couldn’t make out any words/);
});

it('a note heard whole, or that was no sound, says nothing of minutes', async () => {
  expect(await answerTo({ text: 'headlamp rusty', doubts: [] })).not.toMatch(/minutes/);
  const nothing = await answerTo(null);
  expect(nothing).toMatch(/couldn’t make out any words/);
  expect(nothing).not.toMatch(/minutes/);
});
