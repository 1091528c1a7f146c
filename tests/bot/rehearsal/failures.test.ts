import { once } from 'node:events';
import { connect } from 'node:net';
import { autoRetry } from '@grammyjs/auto-retry';
import { HttpError } from 'grammy';
import { describe, expect, it } from 'vitest';
import { botOn, poll, rehearse } from './stage.js';

async function bench() {
  const rehearsal = await rehearse();
  const ada = rehearsal.person({ firstName: 'Ada', started: true });
  const { api } = botOn(rehearsal);
  const texts = () => ada.messages().map(({ text }) => text);
  return { rehearsal, ada, api, chat: ada.chatId, texts };
}

describe('failures on demand', () => {
  it('429: the answer carries retry_after, and the auto-retry plugin heeds it', async () => {
    const { rehearsal, api, chat, texts } = await bench();
    // Source: Bot API documentation, "Making requests" and ResponseParameters.retry_after
    rehearsal.fail({ method: 'sendMessage', kind: '429', retryAfter: 7 });
    await expect(api.sendMessage(chat, 'no')).rejects.toMatchObject({
      error_code: 429,
      description: 'Too Many Requests: retry after 7',
      parameters: { retry_after: 7 },
    });
    api.config.use(autoRetry({ maxRetryAttempts: 2 }));
    const outcomes: string[] = [];
    rehearsal.on('call', ({ outcome }) => void outcomes.push(outcome));
    rehearsal.fail({ kind: '429', retryAfter: 0, times: 2 });
    await api.sendMessage(chat, 'third time lucky');
    expect(outcomes).toEqual(['error', 'error', 'ok']);
    expect(texts()).toEqual(['third time lucky']);
  });

  it('500: as often as asked, for the method asked, and no longer', async () => {
    const { rehearsal, api, chat, texts } = await bench();
    rehearsal.fail({ method: 'SENDMESSAGE', kind: '500', times: 2 });
    expect(await api.sendChatAction(chat, 'typing')).toBe(true);
    await expect(api.sendMessage(chat, 'one')).rejects.toMatchObject({ error_code: 500 });
    await expect(api.sendMessage(chat, 'two')).rejects.toMatchObject({ error_code: 500 });
    await api.sendMessage(chat, 'three');
    expect(texts()).toEqual(['three']);
  });

  it('can be called off', async () => {
    const { rehearsal, api, chat } = await bench();
    const callOff = rehearsal.fail({ kind: '500', times: 1000 });
    await expect(api.sendMessage(chat, 'one')).rejects.toMatchObject({ error_code: 500 });
    callOff();
    await api.sendMessage(chat, 'two');
  });

  it('drop: no answer, nothing sent; or sent, and only the answer lost', async () => {
    const { rehearsal, api, chat, texts } = await bench();
    rehearsal.fail({ kind: 'drop' });
    await expect(api.sendMessage(chat, 'lost')).rejects.toBeInstanceOf(HttpError);
    expect(texts()).toEqual([]);
    rehearsal.fail({ kind: 'drop', afterEffect: true });
    await expect(api.sendMessage(chat, 'arrived')).rejects.toBeInstanceOf(HttpError);
    expect(texts()).toEqual(['arrived']);
  });

  it('hang: never answers, and is not quiet until the caller gives up', async () => {
    const { rehearsal, api, chat, texts } = await bench();
    rehearsal.fail({ method: 'sendMessage', kind: 'hang' });
    const giveUp = new AbortController();
    const logged = new Promise((resolve) => rehearsal.on('call', resolve));
    const hanging = api.sendMessage(chat, 'lost', {}, giveUp.signal as never);
    expect(await logged).toMatchObject({ method: 'sendMessage', outcome: 'lost', errorCode: null });
    await expect(rehearsal.quiet({ timeoutMs: 30 })).rejects.toThrow(/1 calls under way/);
    giveUp.abort();
    await expect(hanging).rejects.toBeInstanceOf(Error);
    await rehearsal.quiet();
    expect(texts()).toEqual([]);
  });

  it('down: cuts every connection, the poll that waits too; up again, nothing is lost', async () => {
    const { rehearsal, ada, api, chat } = await bench();
    const bot = botOn(rehearsal);
    bot.on('message', (ctx) => ctx.reply('back'));
    const poller = poll(bot);
    await rehearsal.polled();
    rehearsal.down(true);
    await expect(api.sendMessage(chat, 'lost')).rejects.toBeInstanceOf(HttpError);
    await ada.say('anyone there?');
    rehearsal.down(false);
    await rehearsal.quiet();
    expect(ada.last()?.text).toBe('back');
    await bot.stop();
    await poller;
  });

  it.each(['application/json', 'multipart/form-data; boundary=x'])(
    'a caller that dies in the middle of its request (%s) leaves the rehearsal quiet and well',
    async (type) => {
      const { rehearsal, api, chat, texts } = await bench();
      const socket = connect(Number(new URL(rehearsal.url).port), '127.0.0.1');
      const head = [
        `POST /bot${rehearsal.token}/sendMessage HTTP/1.1`,
        'host: rehearsal',
        `content-type: ${type}`,
        'content-length: 5000',
        'expect: 100-continue',
      ];
      socket.write(
        [...head, '', '--x\r\ncontent-disposition: form-data; name="text"\r\n\r\nhal'].join('\r\n'),
      );
      await once(socket, 'data');
      await expect(rehearsal.quiet({ timeoutMs: 100 })).rejects.toThrow(/1 calls under way/);
      socket.destroy();
      await rehearsal.quiet();
      await api.sendMessage(chat, 'whole');
      expect(texts()).toEqual(['whole']);
    },
  );

  it('logs each call with what was asked and answered', async () => {
    const { rehearsal, api, chat } = await bench();
    const calls: unknown[] = [];
    const stop = rehearsal.on('call', (call) => void calls.push(call));
    await api.sendMessage(chat, 'hello');
    await api.sendMessage(chat, '').catch(() => undefined);
    stop();
    await api.sendMessage(chat, 'unheard');
    expect(calls).toMatchObject([
      { method: 'sendMessage', params: { chat_id: chat, text: 'hello' }, outcome: 'ok', errorCode: null },
      { outcome: 'error', errorCode: 400, description: 'Bad Request: message text is empty' },
    ]);
  });
});
