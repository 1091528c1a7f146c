import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { findSpeech } from '../../config/setup/find-speech.mjs';
import { filesIn, writeModel } from '../../config/speech/model-files.js';
import { readMessage } from '../../src/hearing/read-message.js';
import { f1, goldSchema, score, type Gold } from '../../src/hearing/score.js';
import { makeSpeechModel } from '../../src/hearing/speech/model.js';
import { shopWordsOf } from '../../src/hearing/speech/shop-words.js';
import { byPocketsphinx, type ModelFiles } from '../../workers/pocketsphinx.js';
import { noteOf, speak, speechMissing, VOICES, type Engine } from '../support/voices.js';
import { spokenWords, wordErrors } from '../support/word-errors.js';

/** The noisy notes: speech this many decibels above the workshop. */
const SNR = 15;

const named = z.array(z.object({ name: z.string(), also: z.array(z.string()).optional() }));
const shopSchema = z.object({ suppliers: named, machines: named, owners: named });
type Said = { gold: Gold; text: string; doubts: readonly { from: number; to: number }[] };
type Tally = { errors: number; words: number; ms: number[]; said: Said[] };

const missing = speechMissing();
const tools = findSpeech();
if (missing !== null || tools === null) {
  console.log(`speech bench: skipped, ${missing}`);
  process.exit(0);
}

const root = fileURLToPath(import.meta.url).replace(/(\/dist)?\/tests\/bench\/speech\.[jt]s$/, '');
const here = join(root, 'tests/hearing/speech');
// With a number, every so many sentences only: a quick look.
const every = Number(process.argv[2] ?? '1');
const golds = (await readFile(join(here, 'sentences.jsonl'), 'utf8'))
  .trim()
  .split('\n')
  .map((line) => goldSchema.parse(JSON.parse(line)))
  .filter((_, index) => index % every === 0);
const known = shopSchema.parse(JSON.parse(await readFile(join(here, 'shop.json'), 'utf8')));
const listener = {
  items: [],
  suppliers: known.suppliers.map(({ name, also = [] }) => ({ name, also })),
  machines: known.machines.map(({ name }) => ({ name })),
  owners: known.owners.map(({ name, also = [] }) => ({ name, also })),
};
const folder = await mkdtemp(join(tmpdir(), 'benchhand-speech-'));

try {
  const began = performance.now();
  await writeModel(makeSpeechModel(shopWordsOf(listener)), tools.compiler, join(folder, 'model'));
  console.log(
    `Speech: ${golds.length} sentences not used for the model; the model made in ${inMs(performance.now() - began)}`,
  );
  const stock: ModelFiles = {
    languageModel: join(tools.acoustics, '../en-us.lm.bin'),
    dictionary: join(tools.acoustics, '../cmudict-en-us.dict'),
  };
  console.log(
    'voice                          noise     stock WER   our WER   micro-F1   s a note (median, worst)',
  );
  for (const snr of [null, SNR]) {
    for (const engine of Object.keys(VOICES) as Engine[]) {
      const all: Record<'stock' | 'ours', Tally> = { stock: emptyTally(), ours: emptyTally() };
      for (const voice of VOICES[engine]) {
        const one: Record<'stock' | 'ours', Tally> = { stock: emptyTally(), ours: emptyTally() };
        for (const gold of golds) {
          const [wav, note] = [join(folder, 'said.wav'), join(folder, 'said.oga')];
          await speak(gold.text, engine, voice, wav);
          await noteOf(wav, note, snr);
          for (const [name, model] of [
            ['stock', stock],
            ['ours', filesIn(join(folder, 'model'))],
          ] as const) {
            const start = performance.now();
            const heard = await byPocketsphinx(tools, () => Promise.resolve(model))(note, 'audio/ogg');
            const ms = performance.now() - start;
            const words = spokenWords(gold.text);
            const errors = wordErrors(words, spokenWords(heard?.text ?? ''));
            for (const tally of [one[name], all[name]]) {
              tally.errors += errors;
              tally.words += words.length;
              tally.ms.push(ms);
              tally.said.push({ gold, text: heard?.text ?? '', doubts: heard?.doubts ?? [] });
            }
          }
        }
        print(`${engine} ${voice}`, snr, one);
      }
      print(`${engine}, all`, snr, all);
    }
  }
} finally {
  await rm(folder, { recursive: true, force: true });
}

function emptyTally(): Tally {
  return { errors: 0, words: 0, ms: [], said: [] };
}

function print(who: string, snr: number | null, { stock, ours }: Record<'stock' | 'ours', Tally>): void {
  const rate = ({ errors, words }: Tally): string => `${((100 * errors) / words).toFixed(1)} %`;
  const ms = [...ours.ms].sort((a, b) => a - b);
  const times = `${inMs(ms[Math.floor(ms.length / 2)] ?? 0)}, ${inMs(ms.at(-1) ?? 0)}`;
  const noise = snr === null ? 'none' : `${snr} dB`;
  console.log(
    `${who.padEnd(30)} ${noise.padEnd(9)} ${rate(stock).padStart(9)} ${rate(ours).padStart(9)} ${microF1(ours.said).toFixed(3).padStart(10)}   ${times}`,
  );
}

/** Of the readings made from what was heard; each gold is taken with the words heard for it. */
function microF1(said: readonly Said[]): number {
  const heard = new Map(said.map((one) => [one.gold, one]));
  if (heard.size === said.length)
    return f1(
      score(
        said.map(({ gold }) => gold),
        (gold) => read(gold, heard.get(gold)),
      ).total,
    );
  const copies = said.map((one) => ({ ...one, gold: { ...one.gold } }));
  return microF1(copies);
}

function read(gold: Gold, said: Said | undefined) {
  const { text = '', doubts = [] } = said ?? {};
  return readMessage(text, { today: gold.today, spoken: true, known: listener, doubts });
}

function inMs(ms: number): string {
  return `${(ms / 1000).toFixed(2)} s`;
}
