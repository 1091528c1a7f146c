import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Bot, InlineKeyboard } from 'grammy';
import { TelegramServer } from 'telegram-test-api/lib/telegramServer.js';
import { afterEach, describe, expect, it } from 'vitest';
import { botOn, poll, rehearse } from './stage.js';

/*
 * The same conversations on our double and on one that we did not write: telegram-test-api (npm), text, commands,
 * callbacks and edits. The same small bot must be seen to say the same on both.
 */

/** A message of the bot as a person sees it: its text and its buttons. */
type Line = { text: string; buttons: string[] };

/** One way to drive a conversation. Each step ends when the bot has done its work. */
type Stage = {
  say: (text: string) => Promise<void>;
  /** Presses the button with this callback data on the last message that bears it. */
  press: (data: string) => Promise<void>;
  /** The bot's messages as they stand now, oldest first. */
  lines: () => Line[];
};

/** What telegram-test-api keeps of a bot's message (its own types need a package that it does not bring). */
type Sent = { messageId: number; message: { text: string; reply_markup?: unknown } };

type Step = { say: string } | { press: string };

const TOKEN = '700000003:second-opinion';
const stops: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const stop of stops.splice(0).reverse()) await stop();
});

async function ourStage(equip: (bot: Bot) => void): Promise<Stage> {
  const rehearsal = await rehearse();
  const bot = botOn(rehearsal);
  equip(bot);
  void poll(bot);
  const ada = rehearsal.person({ firstName: 'Ada' });
  return {
    say: async (text) => {
      await ada.say(text);
      await rehearsal.quiet();
    },
    press: async (data) => {
      await ada.press(data);
      await rehearsal.quiet();
    },
    lines: () =>
      ada
        .messages()
        .filter(({ by }) => by === 'bot')
        .map(({ text, buttons }) => ({ text, buttons: buttons.flat().map((button) => button.text) })),
  };
}

/** telegram-test-api gives updates at once or none at all, so the bot is pumped by hand instead of polling. */
async function theirStage(equip: (bot: Bot) => void): Promise<Stage> {
  const server = new TelegramServer({ port: await freePort(), host: '127.0.0.1' });
  await server.start();
  stops.push(() => server.stop());
  const bot = new Bot(TOKEN, { client: { apiRoot: server.config.apiURL } });
  equip(bot);
  await bot.init();
  const client = server.getClient(TOKEN);
  const pump = async (): Promise<void> => {
    const updates = await bot.api.getUpdates();
    for (const update of updates) await bot.handleUpdate(update);
    if (updates.length > 0) await pump();
  };
  const sent = () => server.storage.botMessages as unknown as Sent[];
  return {
    say: async (text) => {
      if (text.startsWith('/')) await client.sendCommand(client.makeCommand(text));
      else await client.sendMessage(client.makeMessage(text));
      await pump();
    },
    press: async (data) => {
      const bearing = sent().findLast(({ message }) => JSON.stringify(message).includes(`"${data}"`));
      if (bearing === undefined) throw new Error(`no button ${data}`);
      const message = { message_id: bearing.messageId };
      await client.sendCallback(client.makeCallbackQuery(data, { message }));
      await pump();
    },
    lines: () =>
      sent().map(({ message }) => ({
        text: message.text,
        buttons: buttonTexts(message.reply_markup),
      })),
  };
}

function buttonTexts(markup: unknown): string[] {
  const { inline_keyboard: rows = [] } = (markup ?? {}) as { inline_keyboard?: { text: string }[][] };
  return rows.flat().map(({ text }) => text);
}

async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve) => probe.listen(0, '127.0.0.1', resolve));
  const { port } = probe.address() as AddressInfo;
  await new Promise((resolve) => probe.close(resolve));
  return port;
}

/** A bot that keeps a list: commands, free text, buttons that edit, and a question with buttons. */
function listKeeper(bot: Bot): void {
  const items: string[] = [];
  const keyboard = (index: number) =>
    new InlineKeyboard().text('Undo', `undo:${index}`).text('Done', `done:${index}`);
  bot.command('start', (ctx) => ctx.reply(ctx.match === '' ? 'Hello' : `Hello, invited by ${ctx.match}`));
  bot.command('list', (ctx) => ctx.reply(items.join(', ') || 'Nothing on the list'));
  bot.callbackQuery(/^undo:(\d+)$/, async (ctx) => {
    const index = Number(ctx.match[1]);
    await ctx.answerCallbackQuery();
    await ctx.editMessageText(`Undone: ${items[index] ?? '?'}`, {
      reply_markup: new InlineKeyboard().text('Again', `done:${index}`),
    });
    items[index] = 'undone';
  });
  bot.callbackQuery(/^done:(\d+)$/, async (ctx) => {
    await ctx.answerCallbackQuery('Right');
    await ctx.reply(`Done: ${items[Number(ctx.match[1])] ?? '?'}`);
  });
  bot.on('message:text', async (ctx) => {
    items.push(ctx.message.text);
    await ctx.reply(`Noted ${items.length}: ${ctx.message.text}`, {
      reply_markup: keyboard(items.length - 1),
    });
  });
}

const CONVERSATIONS: [string, Step[]][] = [
  ['commands', [{ say: '/start' }, { say: '/start invite-7' }, { say: '/list' }]],
  ['free text', [{ say: 'fork tube pitted' }, { say: 'über-loose – “tight” 🔧' }, { say: '/list' }]],
  ['a button that edits', [{ say: 'left footrest' }, { press: 'undo:0' }, { say: '/list' }]],
  ['a button that answers', [{ say: 'left footrest' }, { press: 'done:0' }, { press: 'done:0' }]],
  [
    'an old button, and one that came by an edit',
    [
      { say: 'one' },
      { say: 'two' },
      { press: 'done:0' },
      { press: 'undo:1' },
      { press: 'done:1' },
      { say: '/list' },
    ],
  ],
  ['a slash inside a text', [{ say: '20/50 oil' }, { say: 'and/or' }]],
];

async function play(stage: Stage, steps: Step[]): Promise<Line[][]> {
  const seen: Line[][] = [];
  for (const step of steps) {
    if ('say' in step) await stage.say(step.say);
    else await stage.press(step.press);
    seen.push(stage.lines());
  }
  return seen;
}

describe('the same conversation on telegram-test-api and on our double', () => {
  it.each(CONVERSATIONS)('%s', async (_name, steps) => {
    const ours = await play(await ourStage(listKeeper), steps);
    const theirs = await play(await theirStage(listKeeper), steps);
    expect(ours).toEqual(theirs);
    expect(ours.at(-1)?.length).toBeGreaterThan(0);
  });
});
