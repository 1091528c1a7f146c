import type { Breach, YearCount, YearOptions } from './run.js';

const BREACHES_SHOWN = 12;

/** What a played year counted, and what did not hold, as text to print. */
export function yearText(
  options: YearOptions,
  count: YearCount,
  breach: Breach | null,
  seconds: number,
): string {
  const { seed, jobs, suppliers, days } = options;
  const faults = Object.entries(count.faults).map(([name, times]) => `${name} ${times}`);
  const rows: [string, string][] = [
    ['days played', String(count.days)],
    ['jobs opened, handed over', `${count.opened}, ${count.handedOver}`],
    ['messages said', String(count.said)],
    ['suppliers’ new dates', String(count.answers)],
    ['faults struck', faults.length > 0 ? faults.join(', ') : 'none'],
    ['days on which all was looked at', String(count.checks)],
    ['seconds', seconds.toFixed(0)],
  ];
  const lines = [
    `seed ${seed}: ${days} days, ${jobs} jobs, ${suppliers} suppliers`,
    ...rows.map(([name, value]) => `  ${name.padEnd(32)} ${value}`),
    ...(breach === null ? ['  everything held'] : breachLines(breach, options)),
  ];
  return `${lines.join('\n')}\n`;
}

function breachLines({ day, breaches }: Breach, { seed, jobs, suppliers, days }: YearOptions): string[] {
  return [
    `  did not hold after ${day}:`,
    ...breaches.slice(0, BREACHES_SHOWN).map((each) => `    ${each}`),
    `  again: npm run year -- --seed ${seed} --jobs ${jobs} --suppliers ${suppliers} --days ${days}`,
  ];
}
