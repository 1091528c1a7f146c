import { expect, it } from 'vitest';
import { commit } from '../../src/record/index.js';
import type { Fold, ShopRecord } from '../../src/record/index.js';
import { event, useBench } from './support.js';

const bench = useBench({ fsync: 'always' });

const count: Fold<number, { type: string; schema: number; data: unknown }> = {
  initial: 0,
  evolve: (state) => state + 1,
};
const KILLS_AFTER = [7, 40, 41, 90, 137, 200];
const WRITERS = 4;
const COMMANDS = 70;

it('keeps every acknowledged append, and each command once, through kills of the server', async () => {
  const shop = bench.open().shop;
  const acknowledged: string[] = [];
  let lost = 0;
  const killsLeft = [...KILLS_AFTER];
  let restarting = Promise.resolve();
  const killWhenDue = () => {
    if (acknowledged.length < (killsLeft[0] ?? Infinity)) return;
    killsLeft.shift();
    restarting = restarting.then(() => bench.server.restart());
  };

  const write = async (writer: number) => {
    // Errors come through to the commit, instead of being hidden by the client's own resending.
    const redis = bench.server.connect({
      ...{ maxRetriesPerRequest: 0, autoResendUnfulfilledCommands: false, retryStrategy: () => 20 },
    });
    const real = bench.open({ redis, shop });
    const record: ShopRecord = {
      ...real,
      append: (append) =>
        real.append(append).catch((error: unknown) => {
          lost += 1;
          throw error;
        }),
    };
    for (let n = 0; n < COMMANDS; n += 1) {
      const commandId = `w${writer}-${n}`;
      const stream = n % 3 === 0 ? 'shop' : (`job-${writer % 2}` as const);
      const committed = await commit(record, {
        ...{ stream, commandId, at: n, by: 'p', fold: count },
        decide: () => ({
          events: [event(commandId), event(`${commandId} too`)],
          texts: { [commandId]: 'words' },
          effects: [{ id: commandId, queue: 'send', data: {} }],
        }),
      });
      expect(['done', 'seen']).toContain(committed.outcome);
      acknowledged.push(commandId);
      killWhenDue();
    }
  };
  await Promise.all(Array.from({ length: WRITERS }, (_, writer) => write(writer)));
  await restarting;
  await bench.server.restart();

  expect(killsLeft).toEqual([]);
  expect(lost).toBeGreaterThan(0);
  const record = bench.open({ redis: bench.server.connect(), shop });
  const said: string[] = [];
  const words: string[] = [];
  for (const stream of await record.streams()) {
    const { events, version, texts } = await record.load(stream);
    expect(events.map((one) => one.version)).toEqual(Array.from({ length: version }, (_, n) => n + 1));
    said.push(...events.map(({ data }) => data as string));
    words.push(...texts.keys());
  }
  const all = acknowledged.slice().sort();
  expect(all).toHaveLength(WRITERS * COMMANDS);
  expect(said.sort()).toEqual(all.flatMap((id) => [id, `${id} too`]).sort());
  expect(words.sort()).toEqual(all);
  const effects = await record.outbox.read('relay', { count: 10_000, blockMs: 1 });
  expect(effects.map(({ effect }) => effect.id).sort()).toEqual(all);
});
