import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { runChild } from '../../config/setup/child.mjs';
import { projectRoot } from '../../config/setup/project.mjs';
import type { Happened } from '../../config/year/journal.js';
import type { Killed, Moment } from '../../config/year/kills.js';
import { playYear } from '../../config/year/run.js';
import { ALL_KILLED, MOMENTS_OF_TALK } from './killed.js';

/**
 * Bot, workers and Redis are processes of their own, killed by SIGKILL while talk is handled, while the shop is woken, and in the
 * sending of what goes to suppliers and owners; every third seed has each worker in a process of its own. Everything that is looked
 * at each day and at the end is in config/year/watch.ts and config/year/ending.ts.
 * One seed by itself: npx vitest run --config config/vitest.config.ts tests/holds/kills.test.ts -t "seed 7$"
 */
const SEEDS = Array.from({ length: 12 }, (_, index) => index + 1);
const A_RUN = { jobs: 2, suppliers: 4, days: 18, atOnce: true };
const CHANCES = { kills: 0.04, killsInWakes: { wake: 0.2, chaser: 0.5 } };
const KILLS_AT_LEAST = 40;
const RUN_MS = 240_000;

beforeAll(async () => {
  if (existsSync(join(projectRoot, 'dist/config/commands/start.js'))) return;
  await runChild(process.execPath, [join(projectRoot, 'config/setup/run.mjs'), 'build'], { show: 'all' });
}, RUN_MS);

describe('a shop whose processes are killed', () => {
  const killed: { what: Killed; when: Moment; during: 'talk' | 'wake' }[] = [];
  let marks = 0;

  it.each(SEEDS.map((seed) => [`seed ${seed}`, seed]))(
    'loses nothing that was said, and says nothing twice without a mark: %s',
    async (_name, seed) => {
      const parts = seed % 3 === 0 ? 'apart' : 'joint';
      const { count, breach, happened, marked } = await playYear({ seed, ...A_RUN, ...CHANCES, parts });
      expect(breach).toBeNull();
      expect(count.days).toBe(A_RUN.days);
      killed.push(...deathsIn(happened));
      marks += marked;
    },
    RUN_MS,
  );

  it('was killed often enough, in each part, at each kind of moment, in talk and in wakes', ({ task }) => {
    if (task.suite?.tasks.some(({ mode }) => mode !== 'run')) return;
    expect(killed.length).toBeGreaterThanOrEqual(KILLS_AT_LEAST);
    expect(new Set(killed.map(({ what }) => what))).toEqual(new Set(ALL_KILLED));
    expect(new Set(killed.map(({ when }) => when))).toEqual(new Set(MOMENTS_OF_TALK));
    expect(new Set(killed.map(({ during }) => during)).size).toBe(2);
    // Else no death fell between a message's being tried and its being known to have gone.
    expect(marks).toBeGreaterThan(0);
  });
});

function deathsIn(happened: readonly Happened[]): { what: Killed; when: Moment; during: 'talk' | 'wake' }[] {
  let during: 'talk' | 'wake' = 'talk';
  return happened.flatMap((entry) => {
    if (entry.kind === 'act') during = 'talk';
    if (entry.kind === 'woken') during = 'wake';
    return entry.kind === 'killed' ? [{ what: entry.what, when: entry.when, during }] : [];
  });
}
