import type { Breach, YearCount, YearOptions } from './run.js';

const BREACHES_SHOWN = 12;

/** Prints what a played year counted, and what did not hold. */
export function printYear(
  { seed, jobs, suppliers, days }: YearOptions,
  count: YearCount,
  breach: Breach | null,
  seconds: number,
): void {
  const faults = Object.entries(count.faults).map(([name, times]) => `${name} ${times}`);
  const rows: [string, string][] = [
    ['days played', String(count.days)],
    ['jobs opened, handed over', `${count.opened}, ${count.handedOver}`],
    ['messages said', String(count.said)],
    ['suppliers’ answers', String(count.answers)],
    ['faults struck', faults.length > 0 ? faults.join(', ') : 'none'],
    ['days on which all was looked at', String(count.checks)],
    ['seconds', seconds.toFixed(0)],
  ];
  console.log(`seed ${seed}: ${days} days, ${jobs} jobs, ${suppliers} suppliers`);
  for (const [name, value] of rows) console.log(`  ${name.padEnd(32)} ${value}`);
  if (breach === null) return console.log('  everything held');
  console.log(`  did not hold after ${breach.day}:`);
  for (const each of breach.breaches.slice(0, BREACHES_SHOWN)) console.log(`    ${each}`);
  console.log(
    `  again: npm run year -- --seed ${seed} --jobs ${jobs} --suppliers ${suppliers} --days ${days}`,
  );
}
