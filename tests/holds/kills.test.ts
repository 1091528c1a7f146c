import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { runChild } from '../../config/setup/child.mjs';
import { projectRoot } from '../../config/setup/project.mjs';
import type { SaidFind } from '../../config/year/invariants/once.js';
import { markedTooOften, neverSent, notOnce, repeated } from '../../config/year/invariants/once.js';
import { message } from './seen.js';
import { playYear } from '../../config/year/run.js';
import type { MessageOut } from '../../src/contact/state.js';
import type { Recorded } from '../../src/record/types.js';

/**
 * Bot, workers and Redis are processes of their own, killed by SIGKILL some milliseconds after one message in seven was said.
 * One seed by itself: npx vitest run --config config/vitest.config.ts tests/holds/kills.test.ts -t "seed 7$"
 */
const SEEDS = Array.from({ length: 25 }, (_, index) => index + 1);
const A_RUN = { jobs: 2, suppliers: 4, days: 9, kills: 0.15, atOnce: true };
const KILLS_AT_LEAST = 60;
const RUN_MS = 120_000;

beforeAll(async () => {
  if (existsSync(join(projectRoot, 'dist/config/commands/start.js'))) return;
  await runChild(process.execPath, [join(projectRoot, 'config/setup/run.mjs'), 'build'], { show: 'all' });
}, RUN_MS);

describe('a shop whose processes are killed', () => {
  let kills = 0;

  it.each(SEEDS.map((seed) => [`seed ${seed}`, seed]))(
    'loses nothing that was said, and says nothing twice without a mark: %s',
    async (_name, seed) => {
      const { count, breach } = await playYear({ seed, ...A_RUN });
      expect(breach).toBeNull();
      expect(count.days).toBe(A_RUN.days);
      kills += Object.entries(count.faults).reduce(
        (sum, [fault, times]) => (fault.startsWith('killed') ? sum + times : sum),
        0,
      );
    },
    RUN_MS,
  );

  it('was killed often enough', ({ task }) => {
    const whole = task.suite?.tasks.every(({ mode }) => mode === 'run') ?? false;
    if (whole) expect(kills).toBeGreaterThanOrEqual(KILLS_AT_LEAST);
  });
});

describe('what is looked at after kills', () => {
  const said: SaidFind = { message: 'mechanic-1-7', text: 'dynamo worn' };
  const logged = (id: string): Recorded => ({
    ...{ id, version: 1, type: 'finding-logged', schema: 1, data: {}, at: 1, by: 'mechanic-1', command: id },
    message: said.message,
  });
  const out = (over: Partial<MessageOut>): MessageOut => ({
    ...{
      id: 'm',
      kind: 'notice',
      about: [],
      text: null,
      intendedAt: 1,
      tries: 1,
      attempts: 0,
      doubtful: false,
    },
    ...{ status: 'sent', sentAt: 1, chatMessage: 1, perhapsRepeated: false, why: null },
    ...over,
  });

  it('sees a finding that is lost, and one that stands twice', () => {
    expect(notOnce([said], [])).toHaveLength(1);
    expect(notOnce([said], [logged('a'), logged('b')])).toHaveLength(1);
    expect(notOnce([said], [logged('a')])).toEqual([]);
  });

  it('sees a message that never went', () => {
    expect(neverSent('an owner', [out({ status: 'intended' })])).toHaveLength(1);
    expect(neverSent('an owner', [out({ status: 'dropped' }), out({})])).toEqual([]);
  });

  it('sees a repeat without a mark, and more marks than faults', () => {
    const twice = [message('2026-03-04T09:00:00Z', 'News'), message('2026-03-04T09:00:00Z', 'News')];
    const told = (seen: typeof twice, kept: MessageOut[]) => ({ who: 'an owner', seen, kept });
    const marked = out({ perhapsRepeated: true });
    expect(repeated([told(twice, [out({})]), told([], [marked])])).toHaveLength(1);
    expect(repeated([told(twice, [marked])])).toEqual([]);
    expect(markedTooOften([marked], 0)).toHaveLength(1);
    expect(markedTooOften([marked], 1)).toEqual([]);
  });
});
