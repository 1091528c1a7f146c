import { createHash } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import type { DeskDeps } from '../../src/desk/deps.js';
import type { Desk, Incoming } from '../../src/desk/desk.js';
import { openDesk } from '../../src/desk/open-desk.js';
import type { ShopRecord } from '../../src/record/types.js';
import { openRecord } from '../../src/record/index.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import type { Answer } from '../../src/wording/answer.js';
import type { TestRedis } from './redis.js';
import { startTestRedis } from './redis.js';

export type DeskBench = {
  redis: TestRedis;
  record: ShopRecord;
  desk: Desk;
  filesDir: string;
  /** A message of the mechanic's, so many ms of shop time after the start. */
  say: (text: string, after?: number) => Promise<Answer>;
  stop: () => Promise<void>;
};

export const MECHANIC_CHAT = 501;
/** Monday 2 March 2026, 09:00 in London. */
export const DESK_START = Date.parse('2026-03-02T09:00:00Z');

/** A desk over a Redis of its own, with one mechanic let in. */
export async function openDeskBench(more: Partial<DeskDeps> = {}): Promise<DeskBench> {
  const redis = await startTestRedis();
  const filesDir = await mkdtemp(join(tmpdir(), 'benchhand-desk-'));
  const record = openRecord({ redis: redis.connect(), shop: 'desk', filesDir });
  const desk = openDesk({
    ...{ record, log: pino({ level: 'silent' }), policyFromFile: DEFAULT_POLICY, canListen: false },
    secretOf: (asked) => createHash('sha256').update(asked).digest('hex'),
    linkFor: (secret) => `link/${secret}`,
    ...more,
  });
  await desk.letIn([MECHANIC_CHAT], DESK_START);
  let count = 0;
  return {
    ...{ redis, record, desk, filesDir },
    say: async (text, after = 0) => {
      count += 1;
      const who = await desk.who(MECHANIC_CHAT);
      if (who.kind !== 'person') throw new Error('the mechanic was let in');
      const message: Incoming = {
        ...{ key: `u${count}`, person: who.person, chatId: MECHANIC_CHAT, messageId: count, text },
        at: DESK_START + after,
        ...{ source: 'typed', attachments: [], replyTo: null, edited: false, album: null, forwarded: false },
      };
      return desk.bench(message);
    },
    stop: async () => {
      await record.close();
      await redis.stop();
      await rm(filesDir, { recursive: true, force: true });
    },
  };
}
