import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { allSigns, chanceWrong, type Weights } from '../../src/hearing/sureness/chance.js';
import { fitLogistic, type Case } from '../support/ridge-logistic.js';
import { readEarlier, readNow, type FieldCase, type MessageCase } from '../support/sureness-cases.js';

/** The checkout, from source or from dist/. */
const root = fileURLToPath(import.meta.url).replace(/(\/dist)?\/tests\/bench\/sureness\.[jt]s$/, '');
const folder = `${root}/tests/hearing/corpus`;

const FOLDS = 5;
const PENALTY = 3;
/** A sign seen less often than this tells nothing. */
const SELDOM = 5;

const messages = [
  ...['worked', 'tuning', 'third-tuning'].flatMap((corpus) => readNow(folder, corpus)),
  ...readEarlier(folder),
];

/** The same text always falls in the same fold, whoever read it. */
const foldOf = new Map(
  [...new Set(messages.map(({ text }) => text))].map((text, at) => [text, (at * 7) % FOLDS]),
);

function fitTable(fields: readonly FieldCase[]): Record<string, number> {
  const seen = new Map<string, number>();
  for (const one of fields) for (const [sign] of allSigns(one)) seen.set(sign, (seen.get(sign) ?? 0) + 1);
  const signs = [...seen].filter(([, times]) => times >= SELDOM).map(([sign]) => sign);
  const number = new Map(signs.map((sign, at) => [sign, at]));
  const cases = fields.map((one): Case => ({
    features: new Map(
      allSigns(one).flatMap(([sign, value]) => {
        const at = number.get(sign);
        return at === undefined ? [] : [[at, value] as const];
      }),
    ),
    happened: one.wrong > 0,
  }));
  const penalties = signs.map((sign) => (sign === 'any' ? 0.01 : sign.startsWith('a ') ? 0.1 : PENALTY));
  const fitted = fitLogistic(cases, penalties);
  return Object.fromEntries(signs.map((sign, at) => [sign, Number((fitted[at] ?? 0).toFixed(2))]));
}

/** The contract's own readings weigh as this many messages: a mark on one of them is known to be too much. */
const WORKED = 6;
const copies = (message: MessageCase): MessageCase[] =>
  new Array<MessageCase>(message.corpus === 'worked' ? WORKED : 1).fill(message);

function fit(from: readonly MessageCase[], mark: Weights['mark']): Weights {
  const fields = from.flatMap((message) => copies(message).flatMap(({ fields }) => fields));
  return {
    mark,
    told: fitTable(fields.filter(({ absent }) => !absent)),
    untold: fitTable(fields.filter(({ absent }) => absent)),
  };
}

const chances = new Map<FieldCase, number>();
for (let fold = 0; fold < FOLDS; fold += 1) {
  const held = (message: MessageCase): boolean => foldOf.get(message.text) === fold;
  const weights = fit(
    messages.filter((message) => !held(message)),
    { told: 1, untold: 1 },
  );
  for (const one of messages.filter(held).flatMap((message) => message.fields))
    chances.set(one, chanceWrong(one, weights));
}

/** Shares of all judged fields: wrong and not marked; marked. */
function shares(from: readonly MessageCase[], mark: Weights['mark']): [sureWrong: number, marked: number] {
  let [judged, sureWrong, marked] = [0, 0, 0];
  for (const { fields, beyond } of from) {
    judged += beyond.judged;
    sureWrong += beyond.wrong;
    for (const one of fields) {
      const isMarked = one.marked || (chances.get(one) ?? 0) > (one.absent ? mark.untold : mark.told);
      judged += isMarked ? Math.max(1, one.judged) : one.judged;
      if (isMarked) marked += Math.max(1, one.judged);
      else sureWrong += one.wrong;
    }
  }
  return [sureWrong / judged, marked / judged];
}

const MARKED = [0.05, 0.08, 0.1, 0.15, 0.2];

/** Shares wrong and not marked where the likeliest to be wrong are marked, until so large a share of all judged fields is. */
function sureWrongAt(from: readonly MessageCase[]): number[] {
  const fields = from.flatMap((message) => message.fields);
  const rank = (one: FieldCase): number => (one.marked ? 1 : (chances.get(one) ?? 0));
  let judged = from.reduce(
    (sum, { beyond, fields: own }) => own.reduce((t, f) => t + f.judged, sum + beyond.judged),
    0,
  );
  let sureWrong = from.reduce(
    (sum, { beyond, fields: own }) => own.reduce((t, f) => t + f.wrong, sum + beyond.wrong),
    0,
  );
  let marked = 0;
  const at = MARKED.map(() => NaN);
  for (const one of fields.sort((a, b) => rank(b) - rank(a))) {
    marked += Math.max(1, one.judged);
    judged += Math.max(1, one.judged) - one.judged;
    sureWrong -= one.wrong;
    MARKED.forEach((share, index) => {
      if (marked / judged <= share) at[index] = sureWrong / judged;
    });
  }
  return at;
}

const percent = (share: number): string => (share * 100).toFixed(1).padStart(5);
console.log(
  `Sureness: chance of being wrong, ${FOLDS}-fold cross-validated by message; wrong and sure % / marked %`,
);
const corpora = [...new Set(messages.map(({ corpus }) => corpus))];
const MARKS = [0.6, 0.5, 0.45, 0.4, 0.35, 0.3, 0.25];
for (const corpus of corpora) {
  const own = messages.filter((message) => message.corpus === corpus);
  console.log(
    `${corpus} (${own.length} messages), rules alone ${shares(own, { told: 1, untold: 1 }).map(percent).join(' /')}`,
  );
  const best = sureWrongAt(own).map((share, index) => `${percent(MARKED[index] ?? 0)}:${percent(share)}`);
  console.log(`  wrong and sure at so much marked: ${best.join('  ')}`);
  const both = MARKS.map(
    (mark) => `${mark}:${shares(own, { told: mark, untold: mark }).map(percent).join(' /')}`,
  );
  console.log(`  marked above a chance of ${both.join('  ')}`);
}

const write = /^--write=(0\.\d+),(0\.\d+)$/.exec(
  process.argv.find((word) => word.startsWith('--write=')) ?? '',
);
if (write !== null) {
  const weights = fit(messages, { told: Number(write[1]), untold: Number(write[2]) });
  const rows = (table: Record<string, number>): string =>
    Object.entries(table)
      .filter(([, weight]) => Math.abs(weight) >= 0.02)
      .sort((a, b) => Math.abs(b[1]) - Math.abs(a[1]))
      .map(([sign, weight]) => `  ${sign}: ${weight}`)
      .join('\n');
  writeFileSync(
    `${root}/src/hearing/sureness/weights.yaml`,
    [
      '# How much each sign speaks for a field being wrong (above 0) or right (below): the weights of two logistic regressions',
      '# with a ridge penalty (le Cessie and van Houwelingen, Applied Statistics 41, 1992), one for fields that something is told',
      '# in, one for fields that nothing is. Made by `npm run bench -- sureness --write=TOLD,UNTOLD` (the marks); not to be edited by hand.',
      `# From ${corpora.map((corpus) => `${corpus} (${messages.filter((one) => one.corpus === corpus).length})`).join(', ')}.`,
      `mark: {told: ${weights.mark.told}, untold: ${weights.mark.untold}}`,
      `told:\n${rows(weights.told)}`,
      `untold:\n${rows(weights.untold)}`,
      '',
    ].join('\n'),
  );
}
