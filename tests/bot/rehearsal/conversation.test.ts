import { InlineKeyboard } from 'grammy';
import { describe, expect, it } from 'vitest';
import { botOn, handClock, poll, rehearse, MONDAY } from './stage.js';

describe('a conversation over long polling', () => {
  it('carries a text to the bot and its reply to the person', async () => {
    const rehearsal = await rehearse();
    const bot = botOn(rehearsal);
    bot.on('message:text', (ctx) => ctx.reply(`heard: ${ctx.message.text}`));
    void poll(bot);
    const ada = rehearsal.person({ firstName: 'Ada' });
    await ada.say('fork tube pitted');
    await rehearsal.quiet();
    expect(ada.messages().map(({ by, text, date }) => ({ by, text, date }))).toEqual([
      { by: 'person', text: 'fork tube pitted', date: MONDAY / 1000 },
      { by: 'bot', text: 'heard: fork tube pitted', date: MONDAY / 1000 },
    ]);
  });

  it('marks commands, and reads a deep link as /start with its payload', async () => {
    const rehearsal = await rehearse();
    const bot = botOn(rehearsal);
    bot.command('start', (ctx) => ctx.reply(`welcome by ${ctx.match}`));
    bot.command('jobs', (ctx) => ctx.reply(`jobs of ${ctx.match}`));
    void poll(bot);
    const ada = rehearsal.person({ firstName: 'Ada' });
    await ada.open('invite_7-x');
    await ada.say('/jobs March');
    await rehearsal.quiet();
    expect(
      ada
        .messages()
        .filter(({ by }) => by === 'bot')
        .map(({ text }) => text),
    ).toEqual(['welcome by invite_7-x', 'jobs of March']);
    await expect(ada.open('not a payload')).rejects.toThrow(/start payload/);
  });

  it('presses a button, answers it, and edits the message with its keyboard gone', async () => {
    const clock = handClock();
    const rehearsal = await rehearse(clock);
    const bot = botOn(rehearsal);
    bot.command('ask', (ctx) =>
      ctx.reply('Keep it?', {
        reply_markup: new InlineKeyboard().text('Yes', 'keep:1').text('No', 'keep:0'),
      }),
    );
    bot.callbackQuery(/^keep:(\d)$/, async (ctx) => {
      await ctx.answerCallbackQuery({ text: 'noted' });
      await ctx.editMessageText(`kept: ${ctx.match[1]}`);
    });
    void poll(bot);
    const ada = rehearsal.person({ firstName: 'Ada' });
    await ada.say('/ask');
    await ada.waitFor(({ text }) => text === 'Keep it?');
    expect(ada.buttons().map(({ text }) => text)).toEqual(['Yes', 'No']);
    clock.forward(60);
    await ada.press('No');
    await rehearsal.quiet();
    expect(ada.answers()).toEqual([{ text: 'noted', alert: false }]);
    expect(ada.last()).toMatchObject({
      text: 'kept: 0',
      buttons: [],
      edits: [{ text: 'Keep it?', date: MONDAY / 1000 }],
      raw: { edit_date: MONDAY / 1000 + 60 },
    });
    await expect(ada.press('No')).rejects.toThrow(/no button "No"/);
  });

  it('sends a person’s edit as edited_message', async () => {
    const rehearsal = await rehearse();
    const bot = botOn(rehearsal);
    bot.on('edited_message:text', (ctx) => ctx.reply(`now: ${ctx.editedMessage.text}`));
    void poll(bot);
    const ada = rehearsal.person({ firstName: 'Ada' });
    const { messageId } = await ada.say('front brake');
    await ada.edit(messageId, 'rear brake');
    await rehearsal.quiet();
    expect(ada.last()?.text).toBe('now: rear brake');
    expect(ada.messages()[0]).toMatchObject({ text: 'rear brake', edits: [{ text: 'front brake' }] });
  });
});
