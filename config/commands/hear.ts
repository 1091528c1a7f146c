import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';
import { DateTime } from 'luxon';
import { z } from 'zod';
import { knownSchema, type Known } from '../../src/hearing/listener.js';
import { readMessage } from '../../src/hearing/read-message.js';

const USAGE = `Reads one bench message a line on standard input, writes one JSON reading a line.

  npm run -s hear -- [--today YYYY-MM-DD] [--zone Europe/London] [--spoken] [--job FILE]

  --today   the day the messages were written (default: today in the zone)
  --zone    the shop's time zone (default: Europe/London)
  --spoken  the lines come from a speech recogniser
  --job     a JSON file of what is known: suppliers, machines, owners, items, words, last`;

type Options = { today: string; spoken: boolean; known?: Known };

const fail = (problem: string): never => {
  process.stderr.write(`hear: ${problem}\n`);
  process.exit(1);
};

function readKnown(file: string): Known {
  let raw: unknown;
  try {
    raw = JSON.parse(readFileSync(file, 'utf8'));
  } catch (cause) {
    return fail(`--job ${file} can't be read as JSON: ${String(cause)}`);
  }
  const result = knownSchema.safeParse(raw);
  return result.success
    ? result.data
    : fail(`--job ${file} is not as expected:\n${z.prettifyError(result.error)}`);
}

function readOptions(): Options {
  const { values } = parseArgs({
    options: {
      today: { type: 'string' },
      zone: { type: 'string', default: 'Europe/London' },
      spoken: { type: 'boolean', default: false },
      job: { type: 'string' },
      help: { type: 'boolean', default: false },
    },
  });
  if (values.help) {
    process.stdout.write(`${USAGE}\n`);
    process.exit(0);
  }
  const now = DateTime.now().setZone(values.zone);
  if (!now.isValid) fail(`--zone ${values.zone} is not a time zone (try Europe/London)`);
  const today = values.today ?? now.toFormat('yyyy-MM-dd');
  if (!DateTime.fromFormat(today, 'yyyy-MM-dd').isValid)
    fail(`--today ${today} is not a date like 2026-03-02`);
  const options = { today, spoken: values.spoken };
  return values.job === undefined ? options : { ...options, known: readKnown(values.job) };
}

async function main(): Promise<void> {
  let options: Options;
  try {
    options = readOptions();
  } catch (cause) {
    return fail(`${cause instanceof Error ? cause.message : String(cause)}\n\n${USAGE}`);
  }
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Infinity }))
    process.stdout.write(`${JSON.stringify(readMessage(line, options))}\n`);
}

// Whoever reads the answers may stop early (`| head`).
process.stdout.on('error', (error: NodeJS.ErrnoException) => process.exit(error.code === 'EPIPE' ? 0 : 1));
await main();
