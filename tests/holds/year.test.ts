import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Seen } from '../../bot/rehearsal/seen.js';
import { projectRoot } from '../../config/setup/project.mjs';
import type { ChatOf } from '../../config/year/invariants/messages.js';
import {
  askedAfterAnswer,
  moreThanOneADay,
  outsideHours,
  shownOthers,
} from '../../config/year/invariants/messages.js';
import { leftInOutbox, passedWhileBlocked, unlikeItsFold } from '../../config/year/invariants/record.js';
import { foldJob } from '../../src/job/fold.js';
import { found, opened, the } from '../job/talk.js';
import { given } from '../support/given.js';
import { message } from './seen.js';

const YEAR = join(projectRoot, 'dist/config/commands/year.js');
const PLAY_MS = 120_000;

function run(args: readonly string[]): Promise<{ code: number | null; output: string }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, { cwd: projectRoot, stdio: ['ignore', 'pipe', 'inherit'] });
    let output = '';
    child.stdout.on('data', (bytes: Buffer) => (output += bytes.toString()));
    child.on('close', (code) => resolve({ code, output }));
  });
}

beforeAll(async () => {
  if (!existsSync(YEAR)) await run(['config/setup/run.mjs', 'build']);
}, PLAY_MS);

describe('a year in the shop', () => {
  it(
    'begins with six weeks in which all that must hold does, faults and all',
    async () => {
      const { code, output } = await run([
        YEAR,
        '--seed',
        '7',
        '--jobs',
        '3',
        '--suppliers',
        '5',
        '--days',
        '42',
      ]);
      expect(output).toContain('everything held');
      expect(output).toMatch(/days played, all looked at after each +42/);
      // What is never due is never looked at.
      expect(output).toMatch(/nudges +[1-9]/);
      expect(output).toMatch(/notices after a silence +[1-9]/);
      expect(code).toBe(0);
    },
    PLAY_MS,
  );

  it('takes no count that is none', async () => {
    expect((await run([YEAR, '--jobs', 'many'])).code).toBe(2);
  });
});

const chat = (part: ChatOf['part'], ...messages: Seen[]): ChatOf => ({
  ...{ who: 'Brask Plating', part, chatId: 2001, messages, foreign: ['Wexcombe'] },
});

describe('each thing that is looked at', () => {
  it.each([
    ['an owner at night', chat('owner', message('2026-03-04T21:00:00Z', 'News'))],
    ['an owner on a Sunday', chat('owner', message('2026-03-08T11:00:00Z', 'News'))],
    ['a supplier before nine', chat('supplier', message('2026-03-04T08:59:00Z', 'Hello from us'))],
    ['a supplier on Good Friday', chat('supplier', message('2026-04-03T10:00:00Z', 'Hello from us'))],
  ])('is seen where it does not hold: %s', (_what, doctored) => {
    expect(outsideHours(doctored)).toHaveLength(1);
  });

  it('lets an answer come at any hour, and what is in hours', () => {
    const asked = message('2026-03-08T22:00:00Z', 'Hello?', 'person');
    expect(outsideHours(chat('owner', asked, message('2026-03-08T22:00:00Z', 'Here I am')))).toEqual([]);
    expect(outsideHours(chat('supplier', message('2026-03-04T09:00:00Z', 'Hello from us')))).toEqual([]);
  });

  it('sees two chasers on one day, another’s machine, and a question after its answer', () => {
    const twice = [
      message('2026-03-04T09:00:00Z', 'Hello from us'),
      message('2026-03-04T15:00:00Z', 'Hello from us'),
    ];
    expect(moreThanOneADay(chat('supplier', ...twice))).toHaveLength(1);
    expect(shownOthers(chat('supplier', message('2026-03-04T09:00:00Z', 'Of the Wexcombe')))).toHaveLength(1);
    const answer = {
      who: 'Brask Plating',
      at: Date.parse('2026-03-04T08:00:00Z') / 1000,
      promised: '2026-03-20',
    };
    const again = chat('supplier', message('2026-03-05T09:00:00Z', 'Hello from us: the handlebar'));
    expect(askedAfterAnswer(again, [{ ...answer, part: 'handlebar' }])).toHaveLength(1);
    expect(askedAfterAnswer(again, [{ ...answer, part: 'silencer' }])).toEqual([]);
  });

  it('sees a gate that was passed with something in its way, and what is left in the outbox', async () => {
    const { events } = given(opened({ passed: ['stripped'] }), found(the('magneto'))).world;
    const gate = {
      ...{ type: 'gate-passed', schema: 1, data: { gate: 'inspected' } },
      ...{ version: events.length + 1, at: 1, by: 'mechanic-1' },
    } as unknown as (typeof events)[number];
    expect(passedWhileBlocked('job-1', [...events, gate], 0)).toHaveLength(1);
    expect(passedWhileBlocked('job-1', [...events, gate], events.length + 1)).toEqual([]);
    expect(unlikeItsFold('job-1', foldJob(events), events)).toEqual([]);
    expect(unlikeItsFold('job-1', foldJob(events.slice(0, -1)), events)).toHaveLength(1);
    const outbox = { size: () => Promise.resolve(2) } as Parameters<typeof leftInOutbox>[0]['outbox'];
    expect(await leftInOutbox({ outbox })).toHaveLength(1);
  });
});
