import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { WholeBot } from '../support/whole-bot.js';
import { openWholeBot } from '../support/whole-bot.js';

let bot: WholeBot;

beforeAll(async () => {
  bot = await openWholeBot([]);
});
afterAll(() => bot.stop());

/** Makes the desk's next answers to a mechanic fail so. */
function breakDesk(times: number, error: Error): void {
  const { desk } = bot;
  const whole = desk.visit;
  let left = times;
  desk.visit = (chatId, key, text) => {
    const visit = whole(chatId, key, text);
    if (left === 0) {
      desk.visit = whole;
      return visit;
    }
    left -= 1;
    return { ...visit, who: () => Promise.reject(error) };
  };
}

async function answerTo(text: string): Promise<string> {
  const { messageId } = await bot.mechanic.say(text);
  return (await bot.mechanic.waitFor(() => true, { after: messageId })).text;
}

describe('an update that can’t be handled', () => {
  it('for want of Redis is tried again until it can, and never put aside', async () => {
    breakDesk(4, Object.assign(new Error('connect ECONNREFUSED'), { code: 'ECONNREFUSED' }));
    expect(await answerTo('help')).toMatch(/^Just talk/);
    expect(await bot.record.inbox.poisoned()).toEqual([]);
  });

  it('for a fault that passes is handled at its second or third try', async () => {
    breakDesk(2, new Error('a fault'));
    expect(await answerTo('help')).toMatch(/^Just talk/);
    expect(await bot.record.inbox.poisoned()).toEqual([]);
  });

  it('for a fault that stays is put aside at the third try, and what comes after it is answered', async () => {
    breakDesk(3, new Error('a fault'));
    expect(await answerTo('help')).toMatch(/^Something went wrong at my end/);
    expect(await bot.record.inbox.poisoned()).toHaveLength(1);
    expect(await answerTo('help')).toMatch(/^Just talk/);
  });
});
