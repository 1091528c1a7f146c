// @ts-check
import { ensureBuilt } from './build.mjs';
import { format, lint, test } from './checks.mjs';
import { bench, become, commandsDir, needsRedis } from './commands.mjs';
import { ensureDependencies } from './dependencies.mjs';
import { ensureRedis } from './redis-server.mjs';
import { say } from './say.mjs';
import { ensureSpeech } from './speech-tools.mjs';
import { SetupTrouble } from './trouble.mjs';

/**
 * Sets up what a command needs, then runs it. Progress goes to standard error, and there is none where there is
 * nothing to do.
 * @param {readonly string[]} args the command and its arguments
 */
export async function main([command, ...args]) {
  try {
    await run(command ?? 'build', args);
  } catch (error) {
    if (!(error instanceof SetupTrouble)) throw error;
    say(error.message);
    process.exitCode = 1;
  }
}

/**
 * @param {string} command
 * @param {readonly string[]} args
 */
async function run(command, args) {
  if (command === 'redis') return ensureRedis();
  if (command === 'speech') return ensureSpeech();
  await ensureDependencies();
  if (command === 'lint') return leave(await lint());
  if (command === 'format') return leave(await format());
  if (command !== 'build' && needsRedis(command, process.env)) await ensureRedis();
  await ensureBuilt();
  if (command === 'build') return;
  if (command === 'test') return leave(await test(args));
  if (command === 'bench') return bench(args);
  return become(commandsDir, command, args);
}

/** @param {number} code */
function leave(code) {
  process.exitCode = code;
}
