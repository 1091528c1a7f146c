import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..');

/** Who may import whom, as DEVELOPERS.md has it; a room may always import itself. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  'src/trade': [],
  'src/hearing': ['src/trade'],
  'src/plan': ['src/trade'],
  'src/picture': [],
  'src/job': ['src/trade', 'src/hearing', 'src/plan', 'src/shop'],
  'src/shop': ['src/trade', 'src/hearing', 'src/plan', 'src/job'],
  'src/contact': ['src/trade'],
  'src/wording': [
    'src/trade',
    'src/hearing',
    'src/plan',
    'src/job',
    'src/shop',
    'src/contact',
    'src/record/types',
  ],
  'src/record': [],
  'src/desk': [
    ...['src/trade', 'src/hearing', 'src/plan', 'src/picture', 'src/job', 'src/shop', 'src/contact'],
    ...['src/wording', 'src/record'],
  ],
  bot: ['src/desk', 'src/wording', 'src/record', 'src/job', 'src/shop'],
  workers: ['src/desk', 'src/wording', 'src/record', 'bot/say'],
};
const PURE = ['trade', 'hearing', 'plan', 'job', 'shop', 'contact', 'wording'].map((room) => `src/${room}`);
/** Rooms with data read their own files as they load: the trade, and the sentences that a recogniser expects. */
const READS_ITS_FILES = ['src/trade', 'src/hearing'];

type Import = { file: string; to: string };

function filesOf(room: string): string[] {
  return readdirSync(join(ROOT, room), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => join(ROOT, room, file));
}

function importsOf(room: string): Import[] {
  return filesOf(room).flatMap((path) => {
    const text = readFileSync(path, 'utf8');
    const named = [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map((match) => match[1] ?? '');
    return named.map((to) => ({ file: relative(ROOT, path), to: placeOf(path, to) }));
  });
}

/** A path of ours from the root, without its ending; a package by its name. */
function placeOf(path: string, to: string): string {
  return to.startsWith('.') ? relative(ROOT, resolve(dirname(path), to)).replace(/\.m?js$/, '') : to;
}

const isOurs = (to: string): boolean => /^(src|bot|workers|config|tests)\//.test(to);
const isIn = (room: string, to: string): boolean => to === room || to.startsWith(`${room}/`);

describe('the rooms', () => {
  it.each(Object.keys(MAY_IMPORT))('%s imports only what lies below it', (room) => {
    const imports = importsOf(room);
    expect(imports.length).toBeGreaterThan(0);
    const allowed = [room, ...(MAY_IMPORT[room] ?? [])];
    const wrong = imports.filter(({ to }) => isOurs(to) && !allowed.some((each) => isIn(each, to)));
    expect(wrong).toEqual([]);
  });

  it.each(PURE)('%s has no Redis, queue, chat, file or network', (room) => {
    const effects =
      /^(ioredis|bullmq|grammy|@grammyjs\/.*|pino|node:(http|https|net|child_process|fs|fs\/promises|timers.*))$/;
    const files = READS_ITS_FILES.includes(room) ? /^node:fs$/ : /^$/;
    const wrong = importsOf(room).filter(({ to }) => effects.test(to) && !files.test(to));
    expect(wrong).toEqual([]);
  });

  it.each(PURE)('%s asks no clock and throws no dice', (room) => {
    const impure =
      /\b(Date\.now\(\)|new Date\(\)|Math\.random\(|performance\.now\(|DateTime\.(now|local|utc)\(\))/;
    const wrong = filesOf(room).filter((path) => impure.test(readFileSync(path, 'utf8')));
    expect(wrong.map((path) => relative(ROOT, path))).toEqual([]);
  });

  it('names every room that there is', () => {
    const rooms = readdirSync(join(ROOT, 'src')).map((room) => `src/${room}`);
    expect(rooms.filter((room) => !(room in MAY_IMPORT))).toEqual([]);
  });
});
