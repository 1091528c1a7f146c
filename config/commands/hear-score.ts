import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { readMessage } from '../../src/hearing/read-message.js';
import { f1, goldSchema, precision, recall, score, type Gold, type Score } from '../../src/hearing/score.js';

const fail = (problem: string): never => {
  process.stderr.write(`hear:score: ${problem}\n`);
  process.exit(1);
};

function readGold(file: string): Gold[] {
  let text = '';
  try {
    text = readFileSync(file, 'utf8');
  } catch (cause) {
    fail(`${file} can't be read: ${String(cause)}`);
  }
  return text.split('\n').flatMap((line, index) => {
    if (line.trim() === '') return [];
    let raw: unknown;
    try {
      raw = JSON.parse(line);
    } catch {
      return fail(`${file}, line ${index + 1} is not JSON`);
    }
    const result = goldSchema.safeParse(raw);
    return result.success
      ? [result.data]
      : fail(`${file}, line ${index + 1}: ${z.prettifyError(result.error)}`);
  });
}

const percent = (share: number): string => `${(share * 100).toFixed(1)} %`.padStart(8);

function print(name: string, result: Score, worst: number): void {
  const { total, judged } = result;
  console.log(`${name}: ${result.messages} messages, ${judged} fields`);
  console.log(
    `  precision ${percent(precision(total))}  recall ${percent(recall(total))}  micro-F1 ${percent(f1(total))}`,
  );
  console.log(
    `  wrong and not marked unsure ${percent(result.certainlyWrong / judged)}  marked unsure ${percent(result.markedUnsure / judged)}`,
  );
  if (worst === 0) return;
  for (const [field, tally] of [...result.fields].sort((a, b) => f1(a[1]) - f1(b[1])))
    console.log(
      `    ${field.padEnd(18)} precision ${percent(precision(tally))}  recall ${percent(recall(tally))}  F1 ${percent(f1(tally))}  (${tally.gold})`,
    );
  console.log('  worst misreadings:');
  for (const { text, wrong } of result.worst.slice(0, worst)) {
    console.log(`    ${text}`);
    for (const one of wrong)
      console.log(
        `        ${one.field}: read ${one.read.join(', ') || '-'}; should be ${one.gold.join(', ') || '-'}${one.unsure ? ' (unsure)' : ''}`,
      );
  }
}

const files = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const worst = Number(
  /^--worst=(\d+)$/.exec(process.argv.find((word) => word.startsWith('--worst=')) ?? '')?.[1] ?? 20,
);
if (files.length === 0) fail('give one or more JSONL files of messages with their readings');
const golds = files.flatMap(readGold);
const read = (gold: Gold) =>
  readMessage(gold.text, {
    today: gold.today,
    ...(gold.spoken === undefined ? {} : { spoken: gold.spoken }),
    ...(gold.known === undefined ? {} : { known: gold.known }),
  });
print('all', score(golds, read), worst);
const spoken = golds.filter((gold) => gold.spoken === true);
if (spoken.length > 0 && spoken.length < golds.length) print('spoken', score(spoken, read), 0);
