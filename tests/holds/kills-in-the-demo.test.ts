import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../config/demo/report.js';
import { runChild } from '../../config/setup/child.mjs';
import { projectRoot } from '../../config/setup/project.mjs';
import type { Struck } from '../../config/year/kills.js';
import { ALL_KILLED, ALL_MOMENTS } from './killed.js';
import type { Played } from './demo-play.js';
import { playDemo } from './demo-play.js';

/**
 * The demo's four months, with bot, workers and Redis killed by SIGKILL at points that the seed spreads over them, against the same
 * months in which nothing dies. In every fifth run each worker is a process of its own.
 * Two are played at a time (`maxConcurrency`): in each, much is waiting for locks to run out.
 * One seed by itself: npx vitest run --config config/vitest.config.ts tests/holds/kills-in-the-demo.test.ts -t "seed 2$"
 */
const SEEDS = Array.from({ length: 25 }, (_, index) => index + 1);
const CHANCES = { talk: 0.02, wake: 0.02, chaser: 0.1, file: 0.2 };
const NOTHING_DIES = { talk: 0, wake: 0, chaser: 0, file: 0 };
const KILLS_AT_LEAST = 60;
const PLAY_MS = 280_000;

let undisturbed: Played;

beforeAll(async () => {
  if (!existsSync(join(projectRoot, 'dist/config/commands/start.js')))
    await runChild(process.execPath, [join(projectRoot, 'config/setup/run.mjs'), 'build'], { show: 'all' });
  undisturbed = await playDemo(0, NOTHING_DIES, 'joint');
}, PLAY_MS);

/** The different things that stand in each chat, links aside: each shop's are its own. */
const saidIn = ({ chats }: Report): Record<string, string[]> =>
  Object.fromEntries(
    Object.entries(chats).map(([who, seen]) => [
      who,
      [...new Set(seen.map(({ by, text }) => `${by}: ${text}`))].sort(),
    ]),
  );

describe('four months in which everything dies at some time', () => {
  const killed: Struck[] = [];

  it('hold, and have nothing in them twice, where nothing does', () => {
    expect(undisturbed.breaches).toEqual([]);
    expect(undisturbed.marked).toBe(0);
  });

  it.concurrent.each(SEEDS.map((seed) => [`seed ${seed}`, seed] as const))(
    'leave what four months leave in which nothing does: %s',
    async (_name, seed) => {
      const parts = seed % 5 === 0 ? 'apart' : 'joint';
      const { report, happened, breaches } = await playDemo(seed, CHANCES, parts);
      killed.push(...happened.filter((entry) => entry.kind === 'killed'));
      expect(breaches).toEqual([]);
      // Every fact once, at its time: events by kind, gates, lines, promises, costs, files.
      expect(report.jobs).toEqual(undisturbed.report.jobs);
      expect(report.photos).toBe(undisturbed.report.photos);
      expect(report.fileBytes).toBe(undisturbed.report.fileBytes);
      // Every due message went, and no other.
      expect(report.sent).toEqual(undisturbed.report.sent);
      expect(report.notSent).toEqual(undisturbed.report.notSent);
      expect(report.supplierSteps).toEqual(undisturbed.report.supplierSteps);
      expect(saidIn(report)).toEqual(saidIn(undisturbed.report));
    },
    PLAY_MS,
  );

  it('were struck often enough, in each part, at each kind of moment', ({ task }) => {
    if (task.suite?.tasks.some(({ mode }) => mode !== 'run')) return;
    expect(killed.length).toBeGreaterThanOrEqual(KILLS_AT_LEAST);
    expect(new Set(killed.map(({ what }) => what))).toEqual(new Set(ALL_KILLED));
    expect(new Set(killed.map(({ when }) => when))).toEqual(new Set(ALL_MOMENTS));
  });
});
