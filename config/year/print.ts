import { COUNTED } from './ledger.js';
import type { Breach, YearCount, YearOptions } from './run.js';
import type { Sent, Tally } from './tally.js';
import { TO_WHOM } from './tally.js';

const BREACHES_SHOWN = 12;
const NAME_WIDTH = 40;

type Row = readonly [string, string | number];

/** What a played year counted, and what did not hold, as text to print. */
export function yearText(
  options: YearOptions,
  count: YearCount,
  breach: Breach | null,
  seconds: number,
): string {
  const { seed, jobs, suppliers, days } = options;
  const lines = [
    `seed ${seed}: ${days} days, ${jobs} jobs, ${suppliers} suppliers`,
    ...rows(playedRows(count)),
    ...(count.tally === null ? [] : tallyLines(count.tally)),
    'what people did',
    ...rows(COUNTED.map((what) => [what, count.happened[what] ?? 0])),
    'faults struck',
    ...rows(faultRows(count)),
    ...rows([['seconds', seconds.toFixed(0)]]),
    ...(breach === null ? ['  everything held'] : breachLines(breach, options)),
  ];
  return `${lines.join('\n')}\n`;
}

const rows = (some: readonly Row[]): string[] =>
  some.map(([name, value]) => `  ${name.padEnd(NAME_WIDTH)} ${value}`);

function playedRows(count: YearCount): Row[] {
  return [
    ['days played, all looked at after each', count.days],
    ['days on which the shop was closed', count.daysClosed],
    ['days that ended with the clocks changed', count.clockChanges.join(', ') || 'none'],
    ['jobs opened, handed over', `${count.opened}, ${count.handedOver}`],
    ['messages said', count.said],
    ['suppliers’ new dates', count.answers],
  ];
}

function faultRows({ faults }: YearCount): Row[] {
  const struck = Object.entries(faults);
  return struck.length > 0 ? struck : [['none', 0]];
}

const KINDS: Readonly<Record<Sent, string>> = {
  'supplier-day': 'chasers',
  nudge: 'nudges',
  notice: 'notices',
  'yes-asked': 'asked for a yes',
  answer: 'answers',
  'round-up': 'round-ups',
  told: 'words passed on',
  'release-asked': 'notices shown first',
  'guest-asked': 'guests shown',
  welcome: 'welcomes',
  trouble: 'troubles told',
};

function tallyLines(tally: Tally): string[] {
  const names = Object.entries(KINDS) as [Sent, string][];
  const notSent = Object.entries(tally.notSent).map(([why, times]): Row => [`not sent: ${why}`, times]);
  return [
    `${'messages sent, to'.padEnd(NAME_WIDTH + 2)} ${TO_WHOM.map((to) => to.padStart(10)).join('')}`,
    ...names.map(([kind, name]) => {
      const cells = TO_WHOM.map((to) => String(tally.sent[kind]?.[to] ?? 0).padStart(10));
      return `  ${name.padEnd(NAME_WIDTH)} ${cells.join('')}`;
    }),
    ...rows(notSent),
    'in the record',
    ...rows([
      ['gates passed', tally.gatesPassed],
      ['gates opened again', tally.gatesReopened],
      ['notices after a silence', tally.silences],
      ['messages taken back or put right', tally.undone],
      ['returns refused', tally.refusedReturns],
      ['answers that were a no', tally.ownersNoes],
    ]),
  ];
}

function breachLines(
  { day, breaches }: Breach,
  { seed, jobs, suppliers, days, kills }: YearOptions,
): string[] {
  return [
    `  did not hold after ${day}:`,
    ...breaches.slice(0, BREACHES_SHOWN).map((each) => `    ${each}`),
    `  again: npm run year -- --seed ${seed} --jobs ${jobs} --suppliers ${suppliers} --days ${days} --kills ${kills}`,
  ];
}
