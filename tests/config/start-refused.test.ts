import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';
import { projectRoot } from '../../config/setup/project.mjs';
import type { TestRedis } from '../support/redis.js';
import { startTestRedis } from '../support/redis.js';

const START = join(projectRoot, 'dist/config/commands/start.js');

let redis: TestRedis;
let rehearsal: Rehearsal;
beforeAll(async () => {
  if (!existsSync(START)) {
    throw new Error('the service is not compiled: run `node config/setup/run.mjs build` once');
  }
  redis = await startTestRedis({ fsync: 'always' });
  rehearsal = await startRehearsal({ now: Date.now });
});
afterAll(async () => {
  await rehearsal.stop();
  await redis.stop();
});

/** Starts the service with these settings; how it ended, and what it wrote. */
async function ended(env: Record<string, string>): Promise<{ code: number | null; said: string }> {
  const child = spawn(process.execPath, [START], {
    env: {
      ...{ PATH: process.env['PATH'], REDIS_URL: redis.url, DATA_DIR: redis.dir },
      ...{ BOT_TOKEN: rehearsal.token, BOT_API_ROOT: rehearsal.url, ...env },
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const said: string[] = [];
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (bytes: Buffer) => said.push(bytes.toString()));
  const [code] = (await once(child, 'close')) as [number | null];
  return { code, said: said.join('') };
}

it('a token that no bot has ends the service with what to do', async () => {
  const token = '700000009:no-bot-has-this-token-anywhere-at-all';
  const { code, said } = await ended({ BOT_TOKEN: token });
  expect(said).toContain('BOT_TOKEN: the chat’s server knows no bot by this token.');
  expect(said).not.toContain(token);
  expect(code).toBe(1);
});

it('a token that is revoked while the service runs ends it with what to do', async () => {
  rehearsal.fail({ kind: '401', method: 'getUpdates' });
  const { code, said } = await ended({});
  expect(said).toMatch(/Benchhand is at work[^]*BOT_TOKEN: the chat’s server knows no bot by this token\./);
  expect(said).not.toContain(rehearsal.token);
  expect(code).toBe(1);
});

it('a shop file that was broken since ends the next start with the place of each fault', async () => {
  const path = join(redis.dir, 'shop.yaml');
  await writeFile(path, 'supplier:\n  chaseAfter: soon\nchaseEverybody: true\n');
  const { code, said } = await ended({ SHOP_FILE: path });
  const lines = said.split('\n').filter((line) => line.startsWith('SHOP_FILE'));
  expect(lines.join('\n')).toMatch(
    /supplier\.chaseAfter[^]*chaseEverybody|chaseEverybody[^]*supplier\.chaseAfter/,
  );
  expect(code).toBe(1);
});

it('a Redis that may throw data away ends it with what to set', async () => {
  const client = redis.connect();
  await client.config('SET', 'maxmemory-policy', 'allkeys-lru');
  const { code, said } = await ended({});
  await client.config('SET', 'maxmemory-policy', 'noeviction');
  expect(said).toContain('set maxmemory-policy to noeviction');
  expect(code).toBe(1);
});
