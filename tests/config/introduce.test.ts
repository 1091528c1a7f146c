import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Api } from 'grammy';
import { pino } from 'pino';
import { expect, it } from 'vitest';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';
import { troubleOf } from '../../bot/patience.js';
import { introduce } from '../../config/service/introduce.js';

const silent = pino({ level: 'silent' });

it('a token that no bot has is said to be wrong, with what to do, and not tried again', async () => {
  const rehearsal = await startRehearsal({ now: Date.now });
  const wrong = new Api('700000009:no-bot-has-this-token-anywhere', { apiRoot: rehearsal.url });
  const asked = await introduce(wrong, silent, () => Promise.reject(new Error('it waited')));
  expect(asked).toEqual({ ok: false, problems: [expect.stringMatching(/^BOT_TOKEN: /)] });
  await rehearsal.stop();
});

it('a chat server that is away, or answers with somebody’s web page, is asked again until it answers; the log says so once', async () => {
  const rehearsal = await startRehearsal({ now: Date.now });
  const page = createServer((_, response) => {
    response.writeHead(200, { 'content-type': 'text/html' }).end('<p>Please sign in to this network</p>');
  });
  await new Promise<void>((resolve) => page.listen(0, '127.0.0.1', resolve));
  const proxy = `http://127.0.0.1:${(page.address() as AddressInfo).port}`;
  const error: unknown = await new Api(rehearsal.token, { apiRoot: proxy })
    .getMe()
    .catch((why: unknown) => why);
  // So an update that meets it waits unconfirmed, and a send is tried again (bot/patience).
  expect(troubleOf(error)).toBe('away');
  const roots = ['http://127.0.0.1:1', proxy, proxy, rehearsal.url];
  const lines: string[] = [];
  const log = pino({ level: 'warn' }, { write: (line: string) => void lines.push(line) });
  const api = { getMe: () => new Api(rehearsal.token, { apiRoot: roots.shift() ?? '' }).getMe() };
  const waits: number[] = [];
  const asked = await introduce(api, log, (ms) => Promise.resolve(waits.push(ms)));
  expect(asked).toMatchObject({ ok: true, me: { is_bot: true } });
  expect(waits).toHaveLength(3);
  expect(lines).toEqual([expect.stringContaining('the chat’s server cannot be reached; trying again')]);
  page.closeAllConnections();
  page.close();
  await rehearsal.stop();
});
