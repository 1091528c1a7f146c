import { Bot, type BotConfig, type Context } from 'grammy';
import { afterEach } from 'vitest';
import { startRehearsal, type HostedBot, type Rehearsal } from '../../../bot/rehearsal/rehearsal.js';

/** Monday 2 March 2026, 09:00 UTC, in Unix milliseconds. */
export const MONDAY = Date.UTC(2026, 2, 2, 9);

/** A clock that stands still until it is moved. */
export type HandClock = { now: () => number; forward: (seconds: number) => void };

const stops: (() => Promise<void>)[] = [];

afterEach(async () => {
  for (const stop of stops.splice(0).reverse()) await stop();
});

/** A clock at Monday morning. */
export function handClock(): HandClock {
  let at = MONDAY;
  return {
    now: () => at,
    forward: (seconds) => {
      at += seconds * 1000;
    },
  };
}

/** A rehearsal server that is stopped after the test. */
export async function rehearse(clock: HandClock = handClock()): Promise<Rehearsal> {
  const rehearsal = await startRehearsal({ now: clock.now });
  stops.push(() => rehearsal.stop());
  return rehearsal;
}

/** A grammY bot on the server, not polling yet. */
export function botOn(
  rehearsal: Rehearsal,
  hosted: HostedBot = rehearsal,
  config: BotConfig<Context> = {},
): Bot {
  return new Bot(hosted.token, { ...config, client: { ...config.client, apiRoot: rehearsal.url } });
}

/** Starts long polling; the bot is stopped after the test. */
export function poll(bot: Bot): Promise<void> {
  const running = bot.start();
  stops.push(async () => {
    await bot.stop().catch(() => undefined);
    await running.catch(() => undefined);
  });
  return running;
}
