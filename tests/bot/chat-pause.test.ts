import type { Transformer } from 'grammy';
import { expect, it } from 'vitest';
import { makeChatPause } from '../../bot/say/pause.js';

// Source: Bot API documentation, ResponseParameters.retry_after: "the number of seconds left to wait before the request can be repeated"
const tooMany = (seconds: number) => ({
  ...{ ok: false as const, error_code: 429, description: 'Too Many Requests' },
  parameters: { retry_after: seconds },
});
const done = { ok: true as const, result: true };

/** A pause under a clock that stands still until it is set, before a server whose answers are given one by one. */
function scene() {
  let time = 0;
  const began: number[] = [];
  const asked: ((answer: unknown) => void)[] = [];
  const pause = makeChatPause({ now: () => time, began: (ms) => began.push(ms) });
  const server = (() => new Promise<unknown>((resolve) => asked.push(resolve))) as Parameters<Transformer>[0];
  return {
    ...{ pause, began, asked },
    at: (ms: number) => void (time = ms),
    call: (method: 'sendMessage' | 'getUpdates' = 'sendMessage') => pause.transformer(server, method, {}),
  };
}
/** Lets everything that waits for nothing outside go on. */
const settled = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

it('lets nothing through for the thirty seconds that were asked for, and says how much is left of them', async () => {
  const { pause, began, asked, at, call } = scene();
  const first = call();
  asked[0]?.(tooMany(30));
  expect(await first).toEqual(tooMany(30));
  expect(began).toEqual([30_000]);
  at(29_500);
  for (let turn = 0; turn < 20; turn += 1)
    expect(await call()).toMatchObject({ error_code: 429, parameters: { retry_after: 0.5 } });
  expect(asked).toHaveLength(1);
  expect(pause.leftMs()).toBe(500);
  at(30_000);
  expect(pause.leftMs()).toBe(0);
});

it('lets one try afterwards, and the others only once that one was taken', async () => {
  const { asked, at, call } = scene();
  const first = call();
  asked[0]?.(tooMany(1));
  await first;
  at(1_000);
  const [trial, ...behind] = [call(), call(), call()];
  await settled();
  expect(asked).toHaveLength(2);
  asked[1]?.(tooMany(2));
  expect(await trial).toEqual(tooMany(2));
  for (const each of behind)
    expect(await each).toMatchObject({ error_code: 429, parameters: { retry_after: 2 } });
  expect(asked).toHaveLength(2);
  at(3_000);
  const again = [call(), call(), call()];
  await settled();
  expect(asked).toHaveLength(3);
  asked[2]?.(done);
  await settled();
  expect(asked).toHaveLength(5);
  asked[3]?.(done);
  asked[4]?.(done);
  expect(await Promise.all(again)).toEqual([done, done, done]);
});

it('keeps the longest of several that came at once, and never holds back a poll', async () => {
  const { pause, asked, call } = scene();
  const both = [call(), call()];
  asked[0]?.(tooMany(30));
  asked[1]?.(tooMany(5));
  await Promise.all(both);
  expect(pause.leftMs()).toBe(30_000);
  const poll = call('getUpdates');
  asked[2]?.(done);
  expect(await poll).toEqual(done);
});
