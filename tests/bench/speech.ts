import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { findSpeech } from '../../config/setup/find-speech.mjs';
import { filesIn, writeModel } from '../../config/speech/model-files.js';
import { voiceFiles } from '../../config/speech/voice-files.js';
import { goldSchema } from '../../src/hearing/score.js';
import { makeSpeechModel } from '../../src/hearing/speech/model.js';
import { shopWordsOf } from '../../src/hearing/speech/shop-words.js';
import { byPocketsphinx, type ModelFiles } from '../../workers/pocketsphinx.js';
import type { Recognise } from '../../workers/recogniser.js';
import { noteOf, speak, speechMissing, VOICES, type Engine } from '../support/voices.js';
import { cpuSecondsOf } from './support/cpu-time.js';
import { addTo, columnsOf, emptyTally, type Tally } from './support/speech-tally.js';

/** The noisy notes: speech this many decibels above the workshop. */
const SNR = 15;

const named = z.array(z.object({ name: z.string(), also: z.array(z.string()).optional() }));
const shopSchema = z.object({ suppliers: named, machines: named, owners: named });
type Tallies = Record<'stock' | 'ours', Tally>;

const missing = speechMissing();
const tools = findSpeech();
if (missing !== null || tools === null) {
  console.log(`speech bench: skipped, ${missing}`);
  process.exit(0);
}

// With a number, every so many sentences only; with an engine, a voice, `clean`, `noisy` or `ours`, that part only.
const [first = '', ...others] = process.argv.slice(2);
const every = Number(first) || 1;
const parts = new Set(Number.isNaN(Number(first)) ? [first, ...others] : others);
const root = fileURLToPath(import.meta.url).replace(/(\/dist)?\/tests\/bench\/speech\.[jt]s$/, '');
const here = join(root, 'tests/hearing/speech');
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
const engines = (Object.keys(VOICES) as Engine[]).filter((one) => isAsked(one, Object.keys(VOICES)));
const noises = [null, SNR].filter((snr) => isAsked(snr === null ? 'clean' : 'noisy', ['clean', 'noisy']));
const folder = await mkdtemp(join(tmpdir(), 'benchhand-speech-'));

try {
  const began = performance.now();
  await writeModel(makeSpeechModel(shopWordsOf(listener)), tools.compiler, join(folder, 'model'));
  const seconds = ((performance.now() - began) / 1000).toFixed(2);
  const { fitter, acoustics } = tools;
  const voice = fitter === null ? null : await voiceFiles(acoustics, fitter, folder);
  const stock: ModelFiles = {
    languageModel: join(acoustics, '../en-us.lm.bin'),
    dictionary: join(acoustics, '../cmudict-en-us.dict'),
  };
  const recognisers: Record<keyof Tallies, Recognise> = {
    stock: byPocketsphinx(tools, () => Promise.resolve(stock)),
    ours: byPocketsphinx(
      tools,
      () => Promise.resolve(filesIn(join(folder, 'model'))),
      () => Promise.resolve(voice),
    ),
  };
  console.log(`Speech: ${golds.length} sentences not used for the model, which was made in ${seconds} s.
Notes: OGG/Opus, 32 kbit/s, one channel. Noisy: a mains hum of 100 and 200 Hz, a whine of 1250 Hz and pink noise, ${SNR} dB below the speech by power.
Voices: flite's are statistical, of recorded American and Scottish speakers; espeak-ng's are made of formants, British. Nobody spoke.
Stock: pocketsphinx with its own language model and dictionary, listening once. Ours: the shop's own, ${voice === null ? 'listening once (no sphinxtrain)' : 'listening twice, fitted to each note'}.
Both: pocketsphinx-en-us of Debian. Words: as said, a compound may be cut. Readings: micro-F1 over all fields.`);
  console.log(
    'voice                          noise     stock WER   our WER   micro-F1   s a note (median, worst; CPU median)',
  );
  for (const snr of noises) {
    for (const engine of engines) {
      const all = emptyTallies();
      for (const speaker of VOICES[engine].filter((one) => isAsked(one, VOICES[engine]))) {
        const one = emptyTallies();
        for (const gold of golds) {
          const [wav, note] = [join(folder, 'said.wav'), join(folder, 'said.oga')];
          await speak(gold.text, engine, speaker, wav);
          await noteOf(wav, note, snr);
          for (const name of ['stock', 'ours'] as const) {
            if (name === 'stock' && parts.has('ours')) continue;
            const [start, cpu] = [performance.now(), cpuSecondsOf('self').children];
            const heard = await recognisers[name](note, 'audio/ogg');
            const took = {
              seconds: (performance.now() - start) / 1000,
              cpuSeconds: cpuSecondsOf('self').children - cpu,
            };
            for (const tally of [one[name], all[name]]) addTo(tally, gold, heard, took);
          }
        }
        print(`${engine} ${speaker}`, snr, one);
      }
      print(`${engine}, all`, snr, all);
    }
  }
} finally {
  await rm(folder, { recursive: true, force: true });
}

function emptyTallies(): Tallies {
  return { stock: emptyTally(), ours: emptyTally() };
}

/** Whether a part of its kind was asked for, or none of that kind. */
function isAsked(part: string, kind: readonly string[]): boolean {
  return parts.has(part) || !kind.some((one) => parts.has(one));
}

function print(who: string, snr: number | null, { stock, ours }: Tallies): void {
  const { wer, f1, times } = columnsOf(ours, listener);
  const theirs = stock.words === 0 ? '-' : columnsOf(stock, listener).wer;
  const noise = snr === null ? 'none' : `${snr} dB`;
  console.log(
    `${who.padEnd(30)} ${noise.padEnd(9)} ${theirs.padStart(9)} ${wer.padStart(9)} ${f1.padStart(10)}   ${times}`,
  );
}
