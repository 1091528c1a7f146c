import { GrammyError } from 'grammy';
import { describe, expect, it } from 'vitest';
import { botOn, handClock, poll, rehearse } from './stage.js';

// Source of every rule here: Bot API documentation, "Getting updates", getUpdates and Update.
describe('getUpdates', () => {
  it('gives each update until a later offset confirms it, ids one after the other', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({ firstName: 'Ada' });
    for (const text of ['one', 'two', 'three']) await ada.say(text);
    const first = await api.getUpdates({ limit: 2 });
    const again = await api.getUpdates();
    const [one, two, three] = again.map((update) => update.update_id);
    expect(first.map((update) => update.update_id)).toEqual([one, two]);
    expect([two, three]).toEqual([(one ?? NaN) + 1, (one ?? NaN) + 2]);
    const rest = await api.getUpdates({ offset: two ?? NaN });
    expect(rest.map((update) => update.message?.text)).toEqual(['two', 'three']);
    expect(await api.getUpdates({ offset: (three ?? NaN) + 1 })).toEqual([]);
    expect(await api.getUpdates({ offset: 1 })).toEqual([]);
    expect(rehearsal.updateCount).toBe(3);
  });

  it('with a negative offset forgets all but the last ones', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({ firstName: 'Ada' });
    for (const text of ['one', 'two', 'three']) await ada.say(text);
    expect((await api.getUpdates({ offset: -1 })).map((update) => update.message?.text)).toEqual(['three']);
    expect(await api.getUpdates()).toHaveLength(1);
  });

  it('gives at most 100 at once', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({ firstName: 'Ada' });
    for (let count = 0; count < 105; count += 1) await ada.say(`item ${count}`);
    expect(await api.getUpdates({ limit: 500 })).toHaveLength(100);
    expect(await api.getUpdates()).toHaveLength(100);
  });

  it('waits for an update, and comes back empty at the time-out', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({ firstName: 'Ada', started: true });
    const waiting = api.getUpdates({ timeout: 20 });
    await rehearsal.quiet();
    await ada.say('here');
    const [update] = await waiting;
    expect(update?.message?.text).toBe('here');
    expect(await api.getUpdates({ offset: (update?.update_id ?? NaN) + 1, timeout: 1 })).toEqual([]);
  });

  it('ousts an older poller with 409', async () => {
    const rehearsal = await rehearse();
    const running = poll(botOn(rehearsal)).catch((error: unknown) => error);
    await rehearsal.polled();
    const second = botOn(rehearsal).api;
    expect(await second.getUpdates()).toEqual([]);
    const ousted = await running;
    expect(ousted).toBeInstanceOf(GrammyError);
    expect(ousted).toMatchObject({
      error_code: 409,
      description: expect.stringContaining('terminated by other getUpdates request') as string,
    });
    await rehearsal.person({ firstName: 'Ada' }).say('still heard');
    expect(await second.getUpdates()).toHaveLength(1);
  });

  it('forgets updates that waited for 24 hours', async () => {
    const clock = handClock();
    const rehearsal = await rehearse(clock);
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({ firstName: 'Ada' });
    await ada.say('old');
    clock.forward(3600);
    await ada.say('newer');
    clock.forward(23 * 3600 - 1);
    expect(await api.getUpdates()).toHaveLength(2);
    clock.forward(1);
    expect((await api.getUpdates()).map((update) => update.message?.text)).toEqual(['newer']);
  });

  it('leaves out kinds that the bot did not ask for, until it asks', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({ firstName: 'Ada' });
    await api.getUpdates({ allowed_updates: ['callback_query'] });
    expect(await ada.say('unheard')).toMatchObject({ updateId: null });
    await api.getUpdates({ allowed_updates: [] });
    await ada.say('heard');
    expect((await api.getUpdates()).map((update) => update.message?.text)).toEqual(['heard']);
  });

  it('gives reactions only to a bot that asks for them by name', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const message_reaction = { message_id: 1 } as never;
    expect(await rehearsal.inject({ message_reaction })).toBeNull();
    await api.getUpdates({ allowed_updates: ['message_reaction'] });
    expect(await rehearsal.inject({ message_reaction })).toBe(1);
  });

  it('drops what waits when the webhook is deleted so', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    await rehearsal.person({ firstName: 'Ada' }).say('old');
    await api.deleteWebhook({ drop_pending_updates: true });
    expect(await api.getUpdates()).toEqual([]);
  });
});

describe('redelivery', () => {
  it('gives a confirmed update once more, the same one', async () => {
    const rehearsal = await rehearse();
    const bot = botOn(rehearsal);
    const handled: number[] = [];
    bot.on('message', (ctx) => void handled.push(ctx.update.update_id));
    void poll(bot);
    const ada = rehearsal.person({ firstName: 'Ada' });
    const { updateId } = await ada.say('once');
    await rehearsal.quiet();
    expect(rehearsal.redeliver(updateId ?? NaN)).toBe(true);
    await rehearsal.quiet();
    expect(handled).toEqual([updateId, updateId]);
    expect(rehearsal.redeliver(999_999)).toBe(false);
  });

  it('gives it even to a poller that comes later with a later offset', async () => {
    const rehearsal = await rehearse();
    const { api } = botOn(rehearsal);
    const ada = rehearsal.person({ firstName: 'Ada' });
    const { updateId } = await ada.say('once');
    const offset = (updateId ?? NaN) + 1;
    expect(await api.getUpdates({ offset })).toEqual([]);
    rehearsal.redeliver(updateId ?? NaN);
    expect((await api.getUpdates({ offset })).map((update) => update.update_id)).toEqual([updateId]);
    expect(await api.getUpdates({ offset })).toEqual([]);
  });
});

describe('quiet', () => {
  it('waits until the bot has come back for more', async () => {
    const rehearsal = await rehearse();
    const bot = botOn(rehearsal);
    let release: () => void = () => undefined;
    const held = new Promise<void>((resolve) => {
      release = resolve;
    });
    bot.on('message', async (ctx) => {
      await ctx.reply('wait');
      await held;
      await ctx.reply('done');
    });
    void poll(bot);
    const ada = rehearsal.person({ firstName: 'Ada' });
    await ada.say('go');
    await ada.waitFor(({ text }) => text === 'wait');
    await expect(rehearsal.quiet({ timeoutMs: 50 })).rejects.toThrow(/1 updates not confirmed/);
    release();
    await rehearsal.quiet();
    expect(ada.last()?.text).toBe('done');
  });

  it('names what it waits for when a message does not come', async () => {
    const rehearsal = await rehearse();
    const ada = rehearsal.person({ firstName: 'Ada' });
    await expect(ada.waitFor(() => true, { timeoutMs: 20 })).rejects.toThrow(/no such message for Ada/);
  });
});
