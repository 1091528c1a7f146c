import { mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import pino from 'pino';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { filesIn } from '../../config/speech/model-files.js';
import { keepShopModel } from '../../config/speech/shop-model.js';
import type { ShopWords } from '../../src/hearing/speech/shop-words.js';

let folder: string;
let made: ShopWords[];
let words: ShopWords;
let fails: boolean;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'benchhand-model-'));
  made = [];
  fails = false;
  words = { suppliers: ['Pinder'], machines: [], owners: [], words: [] };
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const open = () =>
  keepShopModel({
    words: () => Promise.resolve(words),
    make: async (of, into) => {
      if (fails) throw new Error('no room on the disk');
      made.push(of);
      await mkdir(into, { recursive: true });
      await writeFile(filesIn(into).dictionary, of.suppliers.join(' '));
    },
    folder,
    log: pino({ level: 'silent' }),
  });

it('is made once for the same words, asked for at once or after a restart', async () => {
  const model = open();
  const [first, second] = await Promise.all([model.files(), model.files()]);
  expect(second).toEqual(first);
  expect(await open().files()).toEqual(first);
  expect(made).toHaveLength(1);
});

it("is made anew when the shop's words change; the one before last is removed", async () => {
  const model = open();
  const first = await model.files();
  for (const name of ['Hartnell', 'Olcott']) {
    words = { ...words, suppliers: [...words.suppliers, name] };
    await model.files();
  }
  const newest = await model.files();
  expect(made.at(-1)).toEqual(words);
  const left = await readdir(folder);
  expect(left).toHaveLength(2);
  expect(left).not.toContain(dirname(first.dictionary).split('/').at(-1));
  expect(left).toContain(dirname(newest.dictionary).split('/').at(-1));
});

it('is the one before where a new one cannot be made, and none where there is none before', async () => {
  const model = open();
  const first = await model.files();
  fails = true;
  words = { ...words, machines: ['Ketterby'] };
  expect(await model.files()).toEqual(first);
  await expect(open().files()).rejects.toThrow('no room on the disk');
});
