import { Bot } from 'grammy';
import { openRedis } from '../../../config/redis/address.js';

/** The least that a bot can do that keeps what it is told: one append, one answer. It polls as grammY does by itself. */
const { BOT_TOKEN = '', BOT_API_ROOT = '', REDIS_URL = '' } = process.env;
const redis = openRedis(REDIS_URL, {});
const bot = new Bot(BOT_TOKEN, { client: { apiRoot: BOT_API_ROOT } });
bot.on('message:text', async (ctx) => {
  await redis.xadd('bare', '*', 'update', JSON.stringify(ctx.update));
  await ctx.reply(`Kept: ${ctx.message.text}`);
});
await bot.start();
