import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JobReport, Report } from '../../config/demo/report.js';
import { CAST } from '../../config/demo/scenario/cast.js';
import { projectRoot } from '../../config/setup/project.mjs';
import { leaksIn, logsIn } from '../support/clean-logs.js';

const DEMO = join(projectRoot, 'dist/config/commands/demo.js');
const PLAY_MS = 180_000;
/** The made-up token of the rehearsal's bot, and its secret half. */
const BOT_TOKEN = ['700000001:rehearsal-token-never-real', 'rehearsal-token-never-real'];

type Ended = { code: number | null; output: string };

/** Runs a program to its end, with lines piped to its standard input. */
function run(args: readonly string[], input = ''): Promise<Ended> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, {
      cwd: projectRoot,
      stdio: ['pipe', 'pipe', 'inherit'],
      env: { ...process.env, LOG_LEVEL: 'trace' },
    });
    let output = '';
    child.stdout.on('data', (bytes: Buffer) => {
      output += bytes.toString();
    });
    child.stdin.end(input);
    child.on('close', (code) => resolve({ code, output }));
  });
}

let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'benchhand-demo-test-'));
  if (!existsSync(DEMO)) await run(['config/setup/run.mjs', 'build']);
}, PLAY_MS);

afterAll(() => rm(folder, { recursive: true, force: true }));

describe('the play of four months', () => {
  let ended: Ended = { code: null, output: '' };
  let report: Report;
  let ketterby: JobReport;

  beforeAll(async () => {
    const json = join(folder, 'report.json');
    ended = await run([DEMO, '--folder', join(folder, 'play'), '--json', json]);
    expect(ended.code, ended.output.slice(-2_000)).toBe(0);
    report = JSON.parse(await readFile(json, 'utf8')) as Report;
    const found = report.jobs.find(({ title }) => title === 'Ketterby');
    if (!found) throw new Error('the Ketterby is not in the report');
    ketterby = found;
  }, PLAY_MS);

  const gate = (name: string) => ketterby.gates.find((each) => each.gate === name);
  const theirs = (who: keyof Report['chats']): string =>
    report.chats[who]
      .filter(({ by }) => by === 'bot')
      .map(({ text }) => text)
      .join('\n');

  it('passes all six gates and hands the machine over', () => {
    expect(ketterby.gates.map(({ gate: name, isPassed }) => [name, isPassed])).toEqual(
      ['stripped', 'inspected', 'parts-ordered', 'sublet-out', 'reassembled', 'road-tested'].map((name) => [
        name,
        true,
      ]),
    );
    expect(ketterby.status).toBe('handed-over');
  });

  it('reopens what a late crack and a bad return break, and nothing else', () => {
    expect(gate('inspected')?.reopenedAt).toHaveLength(1);
    expect(gate('parts-ordered')?.reopenedAt).toEqual(gate('inspected')?.reopenedAt);
    expect(gate('sublet-out')?.reopenedAt).toHaveLength(1);
    expect(gate('stripped')?.reopenedAt).toEqual([]);
    expect(gate('reassembled')?.reopenedAt).toEqual([]);
  });

  it('chases what is late by the default policy, and stops at an answer', () => {
    // Counted by hand from the script: on 13 April the plater's three things and the dealer's silencer, on 20 April
    // the painter's four; the plater answers next day, the silencer comes, and only the painter is chased again.
    expect(report.supplierSteps).toMatchObject({ chase: 3 + 1 + 4, 'chase-again': 4 });
  });

  it('sends a refused return out again', () => {
    const rim = ketterby.lines.filter(({ part }) => part === 'headlamp rim');
    expect(rim.map(({ status }) => status)).toEqual(['refused', 'back']);
  });

  it('keeps all photos and voice notes, and is refused nothing by the chat', () => {
    const sent = Object.values(report.chats)
      .flat()
      .filter(({ by, kind }) => by === 'person' && (kind === 'photo' || kind === 'voice'));
    expect(sent.length).toBeGreaterThanOrEqual(8);
    expect(report.photos).toBe(sent.length);
    expect(report.refusedCalls).toBe(0);
  });

  it('says when it will be ready with its chances, what a late plater would cost, and writes the plan’s pictures down', async () => {
    expect(theirs('hettie')).toMatch(/Ketterby: ready by .* four chances in five/);
    expect(theirs('hettie')).toMatch(/days? later than as things are/);
    const pictures = ended.output.match(/\S+plan-\d\.png/g) ?? [];
    expect(pictures).toHaveLength(2);
    for (const path of pictures) expect((await readFile(path)).subarray(1, 4).toString()).toBe('PNG');
  });

  it('is mostly talk at the bench', () => {
    const said = [...report.chats.hettie, ...report.chats.joss].filter(({ by }) => by === 'person');
    expect(said.length).toBeGreaterThanOrEqual(60);
  });

  it('shows the owner her own machine alone', () => {
    expect(theirs('averill')).toContain('Ketterby');
    expect(theirs('averill')).not.toMatch(/Ostrel|Tobin|Cobnut|Tansy|Sallow|Orrin|01632/);
  });

  it.each(['plater', 'painter', 'dealer'] as const)(
    'shows the %s no cost, no owner, no other firm',
    (who) => {
      const others = {
        plater: /Tansy|Sallow|Orrin/,
        painter: /Cobnut|Sallow|Orrin/,
        dealer: /Cobnut|Tansy|Orrin/,
      };
      expect(theirs(who)).toContain('Ketterby');
      expect(theirs(who)).not.toMatch(/£|Averill|Tobin/);
      expect(theirs(who)).not.toMatch(others[who]);
    },
  );

  it('tells a stranger one polite line', () => {
    expect(report.chats.stranger.map(({ by }) => by)).toEqual(['person', 'bot']);
    expect(theirs('stranger')).not.toMatch(/Ketterby|Ostrel|Marl/);
  });

  it('leaves nothing of what anybody is called or said, no number and no secret in its logs, down to the finest', async () => {
    const lines = await logsIn(join(folder, 'play'));
    const messages = Object.values(report.chats).flat();
    const texts = messages.flatMap(({ text, buttons }) => [text, ...buttons]);
    const found = (pattern: RegExp): string[] => [
      ...new Set(texts.flatMap((text) => [...text.matchAll(pattern)].map(([whole, part]) => part ?? whole))),
    ];
    const [phones, invitations] = [found(/\b01632 ?\d{6}\b/g), found(/[?/]?start[= ]([\w-]{20,})/g)];
    const tokens = report.buttonTokens;
    // Of every kind there is some, else looking for it would prove nothing.
    for (const some of [phones, invitations, tokens]) expect(some.length).toBeGreaterThan(2);
    const secrets = [
      ...phones,
      ...phones.map((phone) => phone.slice(-6)),
      ...invitations,
      ...tokens,
      ...BOT_TOKEN,
    ];
    const names = Object.values(CAST).flatMap((one) =>
      [one.firstName, 'lastName' in one ? one.lastName : []].flat(),
    );
    expect(lines.length).toBeGreaterThan(5);
    expect(lines.some((line) => line.includes('"level":"info"') || line.includes('"level":30'))).toBe(true);
    const all = [...names, 'Ketterby', 'Ostrel'];
    expect(leaksIn(lines, { names: all, texts, secrets: [...secrets, '01632', '?start='] })).toEqual([]);
  });

  it('prints the conversation, plain where nobody asked for colour, and what was recorded', () => {
    expect(ended.output).toContain('Monday 2 March 2026');
    expect(ended.output).toContain('Hettie Marl (mechanic)');
    expect(ended.output).toContain('What was recorded');
    expect(ended.output).not.toContain('\u001b[');
  });
});

describe('the chats left open', () => {
  it(
    'take lines piped in as whoever is named, and end with the input',
    async () => {
      const lines = [
        'nearside fork tube pitted, new pair, about eighty quid',
        '/1',
        '/as painter',
        'what have I got of yours?',
        '/as averill',
        'when will it be ready?',
        '/day +3',
        '/99',
        '/as nobody',
      ];
      const stay = await run(
        [DEMO, '--stay', '--from-start', '--folder', join(folder, 'stay')],
        `${lines.join('\n')}\n`,
      );
      expect(stay.code, stay.output.slice(-2_000)).toBe(0);
      expect(stay.output).toContain('fork stanchion');
      expect(stay.output).toContain('Hettie Marl presses');
      expect(stay.output).toContain('You are Ruth, owner.');
      expect(stay.output).toContain('It is Thursday 5 March 2026, 09:00.');
      expect(stay.output).toContain('There is no button 99');
      expect(stay.output).toContain('Speak as whom?');
    },
    PLAY_MS,
  );
});
