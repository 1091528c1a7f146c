import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readMessage } from '../../src/hearing/read-message.js';
import { f1, goldSchema, score, type Gold } from '../../src/hearing/score.js';
import { judgeWording, type JudgedWording } from '../support/hearing-judged.js';
import {
  dueDateRight,
  findsNoDate,
  measureRight,
  moneyRight,
  type DueDateCase,
  type MeasureCase,
  type MoneyCase,
} from '../support/hearing-measures.js';
import {
  ordinarySentences,
  putRight,
  tradeSentences,
  wronglyRepaired,
  type Soundalike,
} from '../support/hearing-soundalikes.js';
import { workOrderRecall, type WorkOrder } from '../support/hearing-work-orders.js';
import { reference } from '../support/reference.js';

/** The checkout, from source or from dist/. */
const root = fileURLToPath(import.meta.url).replace(/(\/dist)?\/tests\/bench\/hearing\.[jt]s$/, '');
const shared = `${root}/../shared/references/text`;
if (!existsSync(shared)) {
  console.error(
    `hearing bench: the open data is missing: there is no ${shared}. Put shared/ beside the checkout.`,
  );
  process.exit(1);
}

const text = (name: string): string => readFileSync(`${shared}/${name}`, 'utf8');
const json = <T>(name: string): T => JSON.parse(text(name)) as T;
const lines = <T>(name: string): T[] =>
  text(name)
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as T);

const row = (what: string, share: number, aim: string): void =>
  console.log(`${what.padEnd(66)} ${`${(share * 100).toFixed(1)} %`.padStart(8)}   aim ${aim}`);
const part = <T>(cases: readonly T[], right: (one: T) => boolean): number =>
  cases.filter(right).length / cases.length;

console.log('Hearing, on open data (shared/references/text; sources in tests/references/README.md)');
row('due-dates.json, right', part(json<DueDateCase[]>('due-dates.json'), dueDateRight), '95 %');
row(
  'date-negatives.json, a date found',
  part(json<{ text: string }[]>('date-negatives.json'), (one) => !findsNoDate(one.text, '2026-03-02')),
  '0 %',
);
row('money.json, right', part(json<MoneyCase[]>('money.json'), moneyRight), '90 %');
row(
  'measurements.json, right (of a range its upper figure)',
  part(json<MeasureCase[]>('measurements.json'), measureRight),
  '85 %',
);

const { wordings } = reference<{ wordings: JudgedWording[] }>('roadworthiness-judged.json');
row(
  'roadworthiness wordings, 150 judged by hand: part',
  part(wordings, (one) => judgeWording(one).part),
  '95 %',
);
row(
  'roadworthiness wordings, 150 judged by hand: condition',
  part(wordings, (one) => judgeWording(one).condition),
  '85 %',
);

const recall = workOrderRecall(lines<WorkOrder>('work-order-entities.jsonl'));
row('work orders of heavy plant: item spans touched', recall.items[0] / recall.items[1], '60 %');
row('work orders of heavy plant: observed states touched', recall.states[0] / recall.states[1], '60 %');

const soundalikes = json<Soundalike[]>('part-soundalikes.json');
row(
  'soundalikes: ordinary sentences wrongly repaired',
  part(ordinarySentences(soundalikes), wronglyRepaired),
  'at most 1 %',
);
row('soundalikes: trade sentences put right', part(tradeSentences(soundalikes), putRight), '80 %');

/** The kept-aside half only when asked for: it is not to be tuned on. */
const halves = process.argv.includes('--kept-aside') ? ['tuning', 'kept-aside'] : ['tuning'];
for (const half of halves) {
  const golds = readFileSync(`${root}/tests/hearing/corpus/${half}.jsonl`, 'utf8')
    .trim()
    .split('\n')
    .map((line): Gold => goldSchema.parse(JSON.parse(line)));
  const read = (gold: Gold) =>
    readMessage(gold.text, {
      today: gold.today,
      ...(gold.spoken === undefined ? {} : { spoken: gold.spoken }),
      ...(gold.known === undefined ? {} : { known: gold.known }),
    });
  const whole = score(golds, read);
  row(`corpus, ${half} half: micro-F1 over all fields`, f1(whole.total), '95 %');
  row(
    `corpus, ${half} half: spoken part`,
    f1(
      score(
        golds.filter((gold) => gold.spoken === true),
        read,
      ).total,
    ),
    '90 %',
  );
  row(
    `corpus, ${half} half: wrong and not marked unsure`,
    whole.certainlyWrong / whole.judged,
    'at most 2 %',
  );
  row(`corpus, ${half} half: marked unsure`, whole.markedUnsure / whole.judged, 'at most 10 %');

  const once = (gold: Gold): number => {
    const start = performance.now();
    read(gold);
    return performance.now() - start;
  };
  // The better of three: what the machine's other work takes is not the reader's.
  const times = golds.map((gold) => Math.min(once(gold), once(gold), once(gold)));
  times.sort((a, b) => a - b);
  const p99 = times[Math.floor(times.length * 0.99)] ?? 0;
  console.log(`speed, warm, ${half} half: p99 ${p99.toFixed(1)} ms a message (aim 20 ms)`);
  if (half !== 'tuning') continue;
  console.log('worst misreadings:');
  for (const { text: said, wrong } of whole.worst.slice(0, 20))
    console.log(
      `  ${said}\n${wrong.map((one) => `      ${one.field}: read ${one.read.join(', ') || '-'}; should be ${one.gold.join(', ') || '-'}`).join('\n')}`,
    );
}
