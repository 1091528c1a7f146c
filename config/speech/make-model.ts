import { makeSpeechModel } from '../../src/hearing/speech/model.js';
import type { ShopWords } from '../../src/hearing/speech/shop-words.js';
import { writeModel } from './model-files.js';

/** Run as a process of its own, so that the bot answers meanwhile: the shop's words on standard input, the folder as argument. */
const parts: Buffer[] = [];
for await (const part of process.stdin as AsyncIterable<Buffer>) parts.push(part);
const [compiler = '', folder = ''] = process.argv.slice(2);
const words = JSON.parse(Buffer.concat(parts).toString('utf8')) as ShopWords;
await writeModel(makeSpeechModel(words), compiler, folder);
