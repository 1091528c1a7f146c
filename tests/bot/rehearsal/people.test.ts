import { describe, expect, it } from 'vitest';
import { botOn, handClock, poll, rehearse } from './stage.js';

describe('people and their chats', () => {
  it('message ids run in each chat by itself, dates follow the clock', async () => {
    const clock = handClock();
    const rehearsal = await rehearse(clock);
    const ada = rehearsal.person({ firstName: 'Ada' });
    const bea = rehearsal.person({ firstName: 'Bea' });
    const first = await ada.say('one');
    clock.forward(90);
    const second = await bea.say('one');
    const third = await ada.say('two');
    expect([first, second, third].map(({ messageId }) => messageId)).toEqual([1, 1, 2]);
    const [early, late] = ada.messages();
    expect((late?.date ?? NaN) - (early?.date ?? NaN)).toBe(90);
    expect(bea.chatId).not.toBe(ada.chatId);
  });

  it('waits for a clock that answers later', async () => {
    let asked = 0;
    const clock = { now: () => (asked += 1_000_000), forward: () => undefined };
    const rehearsal = await rehearse({ ...clock, now: () => Promise.resolve(clock.now()) as never });
    const ada = rehearsal.person({ firstName: 'Ada' });
    await ada.say('one');
    expect(ada.messages()[0]?.date).toBe(1000);
  });

  it('carries names, language, forwarding and foreign kinds of message', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({
      id: 77,
      firstName: 'Ada',
      lastName: 'Quill',
      username: 'quill',
      languageCode: 'en',
    });
    await ada.say('look at this', { forwardFrom: 'Somebody' });
    await ada.say('and this', { forwardFrom: { id: 5, is_bot: false, first_name: 'Bea' } });
    await ada.send({ location: { latitude: 1, longitude: 2 } });
    const updates = await api.getUpdates();
    expect(updates.map((update) => update.message)).toMatchObject([
      {
        from: { id: 77, last_name: 'Quill', username: 'quill', language_code: 'en' },
        forward_origin: { type: 'hidden_user', sender_user_name: 'Somebody' },
      },
      { forward_origin: { type: 'user', sender_user: { id: 5 } } },
      { location: { latitude: 1, longitude: 2 } },
    ]);
    expect(await api.getChat(77)).toMatchObject({ type: 'private', first_name: 'Ada', last_name: 'Quill' });
  });

  it('presses the last button of that name, or that of the message named; forges what no button bears', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({ firstName: 'Ada', started: true });
    const ask = (data: string) =>
      api.sendMessage(ada.chatId, 'Undo?', {
        reply_markup: { inline_keyboard: [[{ text: 'Undo', callback_data: data }]] },
      });
    const old = await ask('undo:1');
    await ask('undo:2');
    await ada.press('Undo');
    await ada.press('Undo', { message: old.message_id });
    await ada.press(({ data }) => data?.endsWith('1') ?? false);
    await ada.forge('undo:3');
    const updates = await api.getUpdates();
    expect(updates.map((update) => update.callback_query?.data)).toEqual([
      'undo:2',
      'undo:1',
      'undo:1',
      'undo:3',
    ]);
    expect(updates[1]?.callback_query?.message?.message_id).toBe(old.message_id);
    expect(ada.answers()).toEqual([null, null, null, null]);
  });

  it('tells listeners what people see, in order', async () => {
    const rehearsal = await rehearse();
    const bot = botOn(rehearsal);
    bot.on('message', async (ctx) => {
      const sent = await ctx.reply('hm');
      await ctx.api.editMessageText(ctx.chat.id, sent.message_id, 'aha');
      await ctx.api.deleteMessage(ctx.chat.id, sent.message_id);
    });
    const events: string[] = [];
    rehearsal.on('chat', (event) => void events.push(event.type));
    void poll(bot);
    await rehearsal.person({ firstName: 'Ada' }).say('hello');
    await rehearsal.quiet();
    expect(events).toEqual(['message', 'message', 'edit', 'delete']);
  });

  it('queues updates of any shape', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    await rehearsal.inject({ message: { nonsense: true } } as never);
    expect(await api.getUpdates()).toMatchObject([{ update_id: 1, message: { nonsense: true } }]);
  });
});

describe('groups', () => {
  it('the bot is told that it was put in, hears, leaves, and then hears no more', async () => {
    const rehearsal = await rehearse();
    const bot = botOn(rehearsal);
    bot.on('my_chat_member', (ctx) =>
      ctx.myChatMember.new_chat_member.status === 'member' ? ctx.leaveChat() : undefined,
    );
    void poll(bot);
    const ada = rehearsal.person({ firstName: 'Ada' });
    const group = ada.inGroup({ title: 'Saturday club' });
    await group.say('hello all');
    await rehearsal.quiet();
    expect(await group.say('gone?')).toMatchObject({ updateId: null });
    await expect(bot.api.sendMessage(group.chatId, 'hello')).rejects.toMatchObject({
      error_code: 403,
      description: 'Forbidden: bot is not a member of the group chat',
    });
    expect(group.chatId).toBeLessThan(0);
    expect(ada.messages()).toEqual([]);
  });

  it('people meet in it, and may put the bot out', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({ firstName: 'Ada' }).inGroup();
    const bea = rehearsal.person({ firstName: 'Bea' }).inGroup();
    await ada.say('hello Bea');
    await bea.say('hello Ada');
    expect((await api.getUpdates()).flatMap((update) => update.message?.text ?? [])).toEqual([
      'hello Bea',
      'hello Ada',
    ]);
    expect(bea.messages().map(({ text }) => text)).toEqual(['', 'hello Bea', 'hello Ada']);
    await bea.putOut();
    await expect(api.sendMessage(ada.chatId, 'hello')).rejects.toThrow(/bot was kicked from the group chat/);
    await expect(api.leaveChat(rehearsal.person({ firstName: 'Cy', started: true }).chatId)).rejects.toThrow(
      /can't be changed in private chats/,
    );
  });
});

describe('two bots on one server', () => {
  it('keep people, updates, messages and files apart', async () => {
    const rehearsal = await rehearse();
    const second = rehearsal.host({ token: '700000002:another', username: 'other_bench_bot' });
    const bots = [botOn(rehearsal), botOn(rehearsal, second)];
    for (const bot of bots) {
      bot.on('message', (ctx) => ctx.reply(`I am ${ctx.me.username}`));
      void poll(bot);
    }
    const ada = rehearsal.person({ id: 9, firstName: 'Ada' });
    const adaThere = second.person({ id: 9, firstName: 'Ada' });
    await adaThere.say('hello');
    await rehearsal.quiet();
    expect(adaThere.last()?.text).toBe('I am other_bench_bot');
    expect(ada.messages()).toEqual([]);
    expect([rehearsal.updateCount, second.updateCount]).toEqual([0, 1]);
    await ada.say('hello');
    await rehearsal.quiet();
    expect(ada.last()?.text).toBe('I am benchhand_rehearsal_bot');
    expect(() => rehearsal.host({ token: second.token, username: 'again_bot' })).toThrow(/already there/);
  });
});
