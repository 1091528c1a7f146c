// @ts-check
import { ensureRedis } from './redis-server.mjs';
/** @param {readonly string[]} args */
export async function main(args) {
  await ensureRedis();
}
